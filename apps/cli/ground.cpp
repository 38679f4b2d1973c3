#include <cstdio>
#include <memory>
#include <string>
#include <vector>

#include "apps/cli/command.hpp"
#include "apps/cli/progress_line.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/demo_ground.hpp"
#include "lodeway/tasks/ground.hpp"
#include "lodeway/tasks/ground_words.hpp"
#include "lodeway/tasks/seen.hpp"

namespace lodeway::cli {

namespace {

struct Demo {
  std::string out;
  std::uint64_t seed = 1;
};

units::Language language(bool german) {
  return german ? units::Language::german : units::Language::english;
}

void add_demo(Command& ground) {
  auto o = std::make_shared<Demo>();
  auto* c = ground.add_subcommand("demo", "Make an invented upland to try everything on");
  c->footer("Example: lodeway ground demo skarrow.gpkg");
  c->add_option("OUT", o->out, "The ground file to write")->required();
  add_seed(*c, o->seed, "Another seed, another detail of the same land");
  c->callback([o] {
    ProgressLine progress;
    stop_unless(tasks::make_demo_ground(o->out, o->seed, &progress));
    progress.clear();
    std::printf("%s\n", o->out.c_str());
  });
}

void add_build(Command& ground) {
  struct Options {
    tasks::BuildRequest request;
    std::vector<double> bounds;
    bool json = false, german = false;
  };
  auto o = std::make_shared<Options>();
  auto* c = ground.add_subcommand("build", "Make a ground file from elevation and map files");
  c->footer(
      "Example: lodeway ground build hills.gpkg --elevation dem.tif --features paths.osm.pbf\n"
      "Elevation: GeoTIFF, .hgt, ASCII grid (.asc), DTED, .img, .dem, .bt, GeoPackage; where "
      "files overlap the earlier one counts.\n"
      "Features: OpenStreetMap (.pbf, .osm), GeoPackage, Shapefile, GeoJSON.");
  tasks::BuildRequest& r = o->request;
  c->add_option("OUT", r.out, "The ground file to write, ending in .gpkg")->required();
  c->add_option("--elevation", r.elevation, "Files of heights")->required();
  c->add_option("--features", r.features, "Files of map features");
  c->add_option("--name", r.name, "What the area is called; else the file's name");
  c->add_option("--crs", r.crs, "The ground's grid, EPSG:n; else the UTM zone of the centre");
  c->add_option("--cell", r.cell_m, "Cell in metres; else the finest elevation file's own");
  c->add_option("--bounds", o->bounds,
                "West,south,east,north: degrees if all four can be degrees, else metres of the grid in --crs")
      ->delimiter(',')
      ->expected(4);
  c->add_option("--kinds", r.kinds, "Your own table of kinds, over the built-in one");
  c->add_flag("--dry-flats", r.dry_flats,
              "Dead-flat ground is land; else, where the map has no lakes, it is taken as water");
  c->add_option("--licence", r.licences,
                "Licence: FILE=TEXT for one file, TEXT for all that state none; may be repeated");
  c->add_option("--attribution", r.attributions,
                "Whom to credit: FILE=TEXT for one file, TEXT for all that state none");
  add_language(*c, o->german, "Language of the answer");
  c->add_flag("--json", o->json, "Say what was built as JSON");
  c->callback([o] {
    if (!o->bounds.empty()) {
      o->request.bounds = {o->bounds[0], o->bounds[1], o->bounds[2], o->bounds[3]};
    }
    ProgressLine progress;
    const auto built = value_or_stop(tasks::build_ground(o->request, &progress));
    progress.clear();
    std::fputs(
        (o->json ? tasks::ground_json(built) : tasks::ground_text(built, language(o->german)))
            .c_str(),
        stdout);
  });
}

void add_show(Command& ground) {
  struct Options {
    std::string file, png;
    bool json = false, german = false;
  };
  auto o = std::make_shared<Options>();
  auto* c = ground.add_subcommand("show", "What a ground file holds, and what it lacks");
  c->footer("Example: lodeway ground show skarrow.gpkg --png skarrow.png");
  c->add_option("FILE", o->file, "The ground file")->required();
  c->add_option("--png", o->png, "Also draw it into this picture");
  add_language(*c, o->german, "Language of the answer");
  c->add_flag("--json", o->json, "As JSON");
  c->callback([o] {
    ProgressLine progress;
    const auto summary = value_or_stop(tasks::show_ground(o->file, &progress));
    if (!o->png.empty()) stop_unless(tasks::picture_ground(o->file, o->png, &progress));
    progress.clear();
    std::fputs(
        (o->json ? tasks::ground_json(summary) : tasks::ground_text(summary, language(o->german)))
            .c_str(),
        stdout);
  });
}

void add_seen(Command& ground) {
  struct Options {
    tasks::SeenRequest request;
    bool json = false, german = false;
  };
  auto o = std::make_shared<Options>();
  auto* c = ground.add_subcommand("seen", "Which summits and water are seen from a place");
  c->footer("Example: lodeway ground seen skarrow.gpkg --from \"Harrik Pike\" --png seen.png");
  tasks::SeenRequest& r = o->request;
  c->add_option("FILE", r.ground, "The ground file")->required();
  c->add_option("--from", r.from, "A name on the map or a grid reference; may be repeated")
      ->required();
  c->add_option("--eye", r.eye_m, "Height of the eye above the ground, metres (1.6)");
  c->add_option("--reach", r.reach_m, "How far to look, metres; else to the edge of the ground");
  c->add_option("--refraction", r.refraction, "Refraction: share of the Earth's curve that bent light makes up for (0.13)");
  c->add_option("--png", r.png, "Also draw it: what is seen from none of the places is shaded");
  add_language(*c, o->german, "Language of the answer");
  c->add_flag("--json", o->json, "As JSON");
  c->callback([o] {
    ProgressLine progress;
    const auto answer = value_or_stop(tasks::seen_from_places(o->request, &progress));
    progress.clear();
    std::fputs((o->json ? tasks::seen_json(answer) : tasks::seen_text(answer, language(o->german)))
                   .c_str(),
               stdout);
  });
}

}  // namespace

void add_ground(Command& app) {
  auto* ground = app.add_subcommand("ground", "Ground files: everything known about an area");
  ground->require_subcommand(1);
  add_build(*ground);
  add_show(*ground);
  add_seen(*ground);
  add_demo(*ground);
}

}  // namespace lodeway::cli

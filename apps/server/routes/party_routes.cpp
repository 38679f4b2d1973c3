// What a party has shown: tracks and marks dropped on the page, learnt beside as set, and what that
// does to a way. Nothing is kept here: the page holds the party file's text and sends it along.
#include <algorithm>
#include <span>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/ways.hpp"
#include "lodeway/io/party/party_file.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/tasks/learn.hpp"
#include "lodeway/trip/make_plan.hpp"

namespace lodeway::server {

namespace {

constexpr std::size_t most_bytes = 48U << 20U, most_files = 40;

/// `key`: a list of {name, `what`: text}.
Result<std::vector<tasks::LearnBytes::File>> files_at(const Json& body, const char* key,
                                                      const char* what) {
  std::vector<tasks::LearnBytes::File> out;
  if (!body.contains(key)) return out;
  const auto& list = body[key];
  const auto wrong = [&] {
    return fail(FaultCode::bad_input,
                std::string(key) + ": expected a list of at most 40 {name, " + what + "}");
  };
  if (!list.is_array() || list.size() > most_files) return wrong();
  for (const auto& item : list) {
    if (!item.is_object()) return wrong();
    const auto name = text_at(item, "name"), bytes = text_at(item, what);
    if (!name || !bytes) return wrong();
    out.push_back({*name, *bytes});
  }
  return out;
}

/// The place of a word in a list; absent keys leave `target` as it is.
template <class T>
Result<void> take_word(const Json& from, const char* key, std::initializer_list<const char*> words,
                       T& target) {
  if (!from.contains(key)) return {};
  const auto text = text_at(from, key);
  if (!text) return std::unexpected(text.error());
  int place = 0;
  std::string all;
  for (const char* word : words) {
    if (*text == word) {
      target = static_cast<T>(place);
      return {};
    }
    ++place;
    all += (all.empty() ? "" : ", ") + std::string(word);
  }
  return fail(FaultCode::bad_input, std::string(key) + ": expected one of " + all);
}

Result<void> take_language(const Json& from, units::Language& target) {
  return take_word(from, "language", {"en", "de"}, target);
}

/// What thinning leaves off at the ends of a stretch is not told as left out.
constexpr double least_left_out_m = 2 * learn::TrackRules{}.thin_m;

/// A stretch of a track where it lies on the ground: what is off the ground breaks the line.
void add_lines(Json& out, const walking::Ground& ground, std::span<const earth::Geographic> places,
               const char* was, double least_m) {
  std::vector<earth::GridPoint> line;
  const auto close = [&] {
    if (line.size() > 1 && mapdata::length_m(line) >= least_m)
      out.push_back({{"was", was}, {"line_grid_m", line_json(mapdata::simplify(line, 2))}});
    line.clear();
  };
  for (const auto& place : places) {
    const auto at = ground.grid.to_grid(place);
    if (!at || !ground.elevation.frame().contains(*at)) {
      close();
    } else if (line.empty() || earth::grid_distance_m(line.back(), *at) >= 1) {
      line.push_back(*at);
    }
  }
  close();
}

/// Where a track lies on the ground, and what became of each piece. Of a refused track nothing was
/// used; what of it was a ride is still told apart.
Json lines_of(const tasks::TrackLearnt& track, const walking::Ground& ground) {
  const std::span places(track.places);
  const bool refused = track.reading.used == learn::Used::refused;
  Json out = Json::array();
  std::size_t done = 0;
  const auto add = [&](std::size_t from, std::size_t to, const char* was, double least_m = 0) {
    if (to < places.size() && from < to)
      add_lines(out, ground, places.subspan(from, to - from + 1), was, least_m);
  };
  for (const auto& s : track.reading.stretches) {
    const bool ride = s.mode == learn::Mode::ride;
    if (!ride && (refused || s.mode == learn::Mode::dropped)) continue;
    add(done, s.from, "left_out", least_left_out_m);
    add(s.from, s.to, ride ? "ride" : "used");
    done = std::max(done, s.to);
  }
  if (!places.empty()) add(done, places.size() - 1, "left_out", least_left_out_m);
  return out;
}

Answer learn_now(Service& s, const Request& request) {
  const auto body = body_json(request, most_bytes);
  if (!body) return Answer::fault(body.error());
  tasks::LearnBytes ask;
  if (body->contains("party_file")) {
    const auto text = text_at(*body, "party_file");
    if (!text) return Answer::fault(text.error());
    ask.party = *text;
  }
  auto tracks = files_at(*body, "tracks", "gpx");
  if (!tracks) return Answer::fault(tracks.error());
  auto marks = files_at(*body, "marks", "toml");
  if (!marks) return Answer::fault(marks.error());
  ask.tracks = *std::move(tracks);
  ask.marks = *std::move(marks);
  if (body->contains("refused")) {
    const auto& list = (*body)["refused"];
    if (!list.is_array() || list.size() > 500 ||
        !std::ranges::all_of(list, [](const Json& one) { return one.is_string(); }))
      return Answer::fault(
          {FaultCode::bad_input, "refused: expected a list of at most 500 names of figures"});
    ask.refused = list.get<std::vector<std::string>>();
  }
  const auto as_set = body->value("as_set", Json::object());
  if (!as_set.is_object())
    return Answer::fault({FaultCode::bad_input, "as_set: expected an object"});
  for (const auto& good :
       {take_word(as_set, "skill", {"novice", "practised", "expert"}, ask.table.skill),
        take_word(as_set, "instrument", {"baseplate", "mirror"}, ask.table.instrument),
        take_word(as_set, "visibility", {"clear", "cloud", "night", "snow"}, ask.table.visibility),
        take_word(as_set, "time_model",
                  {"naismith-langmuir", "tobler", "swiss", "din-33466", "irmischer-clarke"},
                  ask.table.model)}) {
    if (!good) return Answer::fault(good.error());
  }
  if (const auto good = take_language(*body, ask.language); !good)
    return Answer::fault(good.error());
  GroundHandle ground;
  if (body->contains("ground_id")) {
    const auto id = text_at(*body, "ground_id");
    if (!id) return Answer::fault(id.error());
    auto opened = s.shelf.open(*id);
    if (!opened) return Answer::fault(opened.error());
    ground = *std::move(opened);
  }
  const auto learnt = tasks::learn_from_bytes(ask);
  if (!learnt) return Answer::fault(learnt.error());
  auto out = Json::parse(tasks::learnt_as_json(*learnt, false));
  for (std::size_t i = 0; i < learnt->tracks.size(); ++i)
    out["tracks"][i]["lines"] =
        ground ? lines_of(learnt->tracks[i], ground->ground) : Json::array();
  out["party_file"] = io::party_file_text(learnt->record);
  return Answer::json(out);
}

/// What a party file's text would do to a way that was found. Ways that are no longer the answer to
/// their trip are as good as gone.
Answer change_of_found(Service& s, const Request& request, const Pieces& p) {
  const auto body = body_json(request, most_bytes);
  if (!body) return Answer::fault(body.error());
  const auto text = text_at(*body, "party_file");
  if (!text) return Answer::fault(text.error());
  auto language = units::Language::english;
  if (const auto good = take_language(*body, language); !good) return Answer::fault(good.error());
  const auto found = s.jobs.result<FoundWays>(p[0]);
  if (!found) return Answer::not_found("ways");
  const auto index = index_of(*found, p[1]);
  if (!index) return Answer::fault(index.error());
  auto stored = s.store->trip(s.jobs.as_json(p[0])["trip_id"].get<std::string>());
  if (!stored) return Answer::not_found("trip");
  const auto before = make_ready(s, *stored);
  if (!before) return Answer::fault(before.error());
  if (before->question != found->question) return Answer::not_found("ways");
  stored->state["party_file"] = *text;
  const auto now = make_ready(s, *stored);
  if (!now) return Answer::fault(now.error());
  const auto& way = found->planned.ways[*index];
  const auto plan = trip::plan_of(way.outcome, before->trip, found->ground->ground);
  const auto changed = tasks::change_of_way(way, plan, now->ground->finder(), now->trip);
  if (!changed) return Answer::fault(changed.error());
  auto out = Json::parse(tasks::trip_change_as_json(*changed));
  out["sentences"] = Json::array();
  const auto told = tasks::trip_change_as_text(*changed, language);
  for (std::size_t at = 0; at < told.size();) {
    const auto end = std::min(told.find('\n', at), told.size());
    const auto first = told.find_first_not_of(' ', at);
    if (first < end) out["sentences"].push_back(told.substr(first, end - first));
    at = end + 1;
  }
  return Answer::json(out);
}

}  // namespace

void add_party_routes(Router& router, Service& s) {
  router.add("POST", "/api/party/learn",
             [&s](const Request& request, const Pieces&) { return learn_now(s, request); });
  router.add("POST", "/api/ways/{job}/{way}/change", [&s](const Request& request, const Pieces& p) {
    return change_of_found(s, request, p);
  });
}

}  // namespace lodeway::server

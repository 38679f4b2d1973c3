#include "lodeway/io/osm/osm.hpp"

#include <filesystem>
#include <utility>

#include <fmt/format.h>
#include <osmium/area/assembler.hpp>
#include <osmium/area/multipolygon_manager.hpp>
#include <osmium/handler.hpp>
#include <osmium/handler/node_locations_for_ways.hpp>
#include <osmium/index/map.hpp>
#include <osmium/io/any_input.hpp>
#include <osmium/visitor.hpp>

#include "lodeway/io/gdal/detail/talk.hpp"
#include "lodeway/io/osm/detail/node_store.hpp"
#include "lodeway/io/vector/detail/collector.hpp"

namespace lodeway::io {

namespace {

constexpr std::int64_t most_nodes = 100'000'000;
/// OpenStreetMap itself takes 2 000. Where a ring crosses itself all its sides are held against one
/// another.
constexpr std::size_t most_points_of_a_way = 50'000;
using Id = osmium::unsigned_object_id_type;

/// Our store as osmium's handler wants it.
class Index : public osmium::index::map::Map<Id, osmium::Location> {
 public:
  void set(Id id, osmium::Location at) override { store_.add(id, {at.x(), at.y()}); }
  [[nodiscard]] osmium::Location get(Id id) const override {
    const auto at = get_noexcept(id);
    if (!at.is_defined()) throw osmium::not_found{id};
    return at;
  }
  [[nodiscard]] osmium::Location get_noexcept(Id id) const noexcept override {
    const auto at = store_.find(id);
    return at ? osmium::Location{at->x, at->y} : osmium::Location{};
  }
  [[nodiscard]] std::size_t size() const override { return store_.size(); }
  [[nodiscard]] std::size_t used_memory() const override { return store_.used_bytes(); }
  void clear() override { store_.clear(); }
  void sort() override { store_.sort(); }

 private:
  NodeStore store_;
};
using Locations = osmium::handler::NodeLocationsForWays<Index, Index>;

class Handler : public osmium::handler::Handler {
 public:
  Handler(FeatureCollector& collector, const KindRules& rules, std::string file)
      : collector_(collector), rules_(rules), file_(std::move(file)) {}

  void node(const osmium::Node& node) {
    if (++nodes_ > most_nodes) {
      throw FeatureRefusal{
          FaultCode::too_large,
          fmt::format("{}: expected at most {} nodes; cut it to the area first (osmium "
                      "extract -b W,S,E,N)",
                      file_, most_nodes)};
    }
    if (!node.location().valid()) return;
    collector_.saw({node.location().lon(), node.location().lat(), node.location().lon(),
                    node.location().lat()});
    if (node.tags().empty()) return;
    const OGRPoint at(node.location().lon(), node.location().lat());
    add(at, node.tags(), fmt::format("node {}", node.id()));
  }

  void way(const osmium::Way& way) {
    if (way.nodes().size() > most_points_of_a_way) {
      throw FeatureRefusal{FaultCode::too_large,
                           fmt::format("{}: way {}: expected at most {} points", file_, way.id(),
                                       most_points_of_a_way)};
    }
    if (way.tags().empty() || way.nodes().empty()) return;
    if (way.is_closed() && way.tags().has_tag("area", "yes")) return;
    OGRLineString line;
    bool whole = true;
    const auto end_piece = [&] {
      if (line.getNumPoints() > 1) add(line, way.tags(), fmt::format("way {}", way.id()));
      line.empty();
    };
    for (const osmium::NodeRef& node : way.nodes()) {
      if (node.location().valid())
        line.addPoint(node.lon(), node.lat());
      else {
        whole = false;
        end_piece();
      }
    }
    end_piece();
    if (!whole) ++broken_;
  }

  void area(const osmium::Area& area) {
    OGRMultiPolygon polygons;
    for (const auto& outer : area.outer_rings()) {
      auto polygon = std::make_unique<OGRPolygon>();
      polygon->addRingDirectly(ring(outer));
      for (const auto& inner : area.inner_rings(outer)) polygon->addRingDirectly(ring(inner));
      polygons.addGeometryDirectly(polygon.release());
    }
    add(polygons, area.tags(),
        fmt::format("{} {}", area.from_way() ? "way" : "relation", area.orig_id()));
  }

  [[nodiscard]] std::int64_t broken() const { return broken_; }

 private:
  static OGRLinearRing* ring(const osmium::NodeRefList& nodes) {
    auto out = std::make_unique<OGRLinearRing>();
    for (const osmium::NodeRef& node : nodes) out->addPoint(node.lon(), node.lat());
    return out.release();
  }

  void add(const OGRGeometry& geometry, const osmium::TagList& list, const std::string& where) {
    texts_.clear();
    tags_.clear();
    for (const osmium::Tag& tag : list)
      texts_.emplace_back(small_letters(tag.key()), small_letters(tag.value()));
    for (const auto& [key, value] : texts_) tags_.push_back({key, value});
    std::string name;
    if (const auto at = rules_.name_tag(tags_))
      name = std::next(list.begin(), static_cast<long>(*at))->value();
    collector_.add(geometry, tags_, name, where);
  }

  FeatureCollector& collector_;
  const KindRules& rules_;
  std::string file_;
  std::vector<std::pair<std::string, std::string>> texts_;
  std::vector<Tag> tags_;
  std::int64_t nodes_ = 0, broken_ = 0;
};

void set_date(mapdata::Source& source, const osmium::io::Header& header) {
  std::string date = header.get("osmosis_replication_timestamp");
  if (date.empty()) date = header.get("timestamp");
  source.date = date.substr(0, 10);
}

/// A key or value with a byte 0 inside is two to the library, which then reads past the end of the
/// tags: keys and values end in one such byte each, so there must be an even number of them.
void expect_pairs(const osmium::memory::Buffer& buffer, const std::string& path) {
  for (const auto& object : buffer.select<osmium::OSMObject>()) {
    const osmium::TagList& tags = object.tags();
    if (std::count(tags.data() + sizeof(tags), tags.data() + tags.byte_size(), 0) % 2 == 0) continue;
    throw FeatureRefusal{FaultCode::bad_input,
                         fmt::format("{}: {} {}: expected keys and values without a byte 0", path,
                                     osmium::item_type_to_name(object.type()), object.id())};
  }
}

FeaturesRead read_all(const std::string& path, const FeatureRequest& request) {
  FeatureCollector collector(request, wgs84(), path, false);
  FeaturesRead out;
  out.source = {"features",
                std::filesystem::path(path).filename().string(),
                "OpenStreetMap extract",
                "ODbL 1.0",
                "© OpenStreetMap contributors",
                "EPSG:4326",
                ""};
  const auto must_go_on = [&](double fraction) {
    if (goes_on(request.progress, fraction, "reading " + out.source.file)) return;
    throw FeatureRefusal{FaultCode::cancelled, "stopped"};
  };
  const osmium::io::File file(path);
  osmium::area::AssemblerConfig config;
  osmium::area::MultipolygonManager<osmium::area::Assembler> areas(config);
  {
    osmium::io::Reader reader(file, osmium::osm_entity_bits::relation);
    while (osmium::memory::Buffer buffer = reader.read()) {
      must_go_on(0);
      expect_pairs(buffer, path);
      osmium::apply(buffer, areas);
    }
    areas.prepare_for_lookup();
    reader.close();
  }
  Index index, of_negatives;  // editors number what is new from -1 down
  Locations locations(index, of_negatives);
  locations.ignore_errors();
  Handler handler(collector, *request.rules, path);
  osmium::io::Reader reader(file, osmium::osm_entity_bits::nwr);
  set_date(out.source, reader.header());
  const auto total = static_cast<double>(std::max<std::size_t>(1, reader.file_size()));
  const auto take_areas = [&](const osmium::memory::Buffer& buffer) {
    osmium::apply(buffer, handler);
  };
  while (osmium::memory::Buffer buffer = reader.read()) {
    must_go_on(static_cast<double>(reader.offset()) / total);
    expect_pairs(buffer, path);
    osmium::apply(buffer, locations, handler, areas.handler(take_areas));
  }
  take_areas(areas.read());
  reader.close();
  out.map = std::move(collector.map());
  out.remarks = collector.remarks();
  if (const auto lies = collector.lies())
    out.lies_deg = {lies->west, lies->south, lies->east, lies->north};
  if (handler.broken() > 0) {
    out.remarks.push_back(
        fmt::format("{}: {} ways have nodes that are not in the file and were cut there", path,
                    handler.broken()));
  }
  return out;
}

}  // namespace

bool is_osm(const std::string& path) {
  const std::string name = small_letters(path);
  for (const char* ending : {".pbf", ".osm", ".osm.gz", ".osm.bz2"}) {
    if (name.ends_with(ending)) return true;
  }
  return false;
}

Result<FeaturesRead> read_osm(const std::string& path, const FeatureRequest& request) {
  gdal_ready();
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) {
    return fail(FaultCode::io_failed, path + ": expected an OpenStreetMap file, found none");
  }
  try {
    return read_all(path, request);
  } catch (const FeatureRefusal& refusal) {
    return fail(refusal.code, refusal.what);
  } catch (const std::bad_alloc&) {
    return fail(FaultCode::too_large, path + ": does not fit in memory; cut it to the area first");
  } catch (const std::exception& e) {  // osmium's, expat's, zlib's: all derive from it
    std::string reason = e.what();
    std::ranges::replace(reason, '\n', ' ');
    return fail(FaultCode::bad_input, fmt::format("{}: expected whole OpenStreetMap data: {}", path,
                                                  reason.substr(0, 300)));
  }
}

}  // namespace lodeway::io

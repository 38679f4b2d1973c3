#include <array>
#include <filesystem>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "lodeway/io/gdal/detail/outside.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"
#include "lodeway/io/vector/detail/collector.hpp"

namespace lodeway::io {

namespace {

constexpr std::uintmax_t most_text_bytes = 512ULL << 20U;

[[noreturn]] void refuse(std::string what, FaultCode code = FaultCode::bad_input) {
  throw FeatureRefusal{code, std::move(what)};
}

/// Attributes in small letters, with room that stays in place.
class Attributes {
 public:
  explicit Attributes(const std::string& layer) : layer_(small_letters(layer)) {}

  void fill(OGRFeature& feature) {
    texts_.clear();
    originals_.clear();
    tags_.clear();
    const int count = std::min(feature.GetFieldCount(), 500);
    for (int i = 0; i < count; ++i) {
      if (feature.IsFieldSetAndNotNull(i) == 0) continue;
      originals_.emplace_back(feature.GetFieldAsString(i));
      texts_.emplace_back(small_letters(feature.GetFieldDefnRef(i)->GetNameRef()),
                          small_letters(originals_.back()));
    }
    for (const auto& [key, value] : texts_) tags_.push_back({key, value});
    tags_.push_back({"@layer", layer_});
  }
  [[nodiscard]] std::span<const Tag> tags() const { return tags_; }
  [[nodiscard]] std::string name(const KindRules& rules) const {
    const auto at = rules.name_tag(tags_);
    return at && *at < originals_.size() ? originals_[*at] : std::string();
  }

 private:
  std::string layer_;
  std::vector<std::pair<std::string, std::string>> texts_;
  std::vector<std::string> originals_;
  std::vector<Tag> tags_;
};

void append(mapdata::MapData& to, mapdata::MapData&& from) {
  const auto move = [](auto& a, auto& b) {
    a.insert(a.end(), std::make_move_iterator(b.begin()), std::make_move_iterator(b.end()));
  };
  move(to.points, from.points);
  move(to.lines, from.lines);
  move(to.areas, from.areas);
}

FeaturesRead read_all(const std::string& path, const FeatureRequest& request) {
  const std::filesystem::path p(path);
  std::error_code error;
  if (!std::filesystem::is_regular_file(p, error)) {
    refuse(path + ": expected a file of map features, found none", FaultCode::io_failed);
  }
  const std::string ending = small_letters(p.extension().string());
  if ((ending == ".json" || ending == ".geojson") &&
      std::filesystem::file_size(p) > most_text_bytes) {
    refuse(path + ": expected at most 512 MiB of GeoJSON; turn it into a GeoPackage with ogr2ogr",
           FaultCode::too_large);
  }
  GdalTalk talk;
  const Outside outside(path, request.progress);
  const auto stop_if_asked = [&] {
    if (outside.stopped()) refuse("stopped", FaultCode::cancelled);
  };
  constexpr std::array<const char*, 4> formats{"GPKG", "ESRI Shapefile", "GeoJSON", nullptr};
  const Dataset data = outside.open(GDAL_OF_VECTOR, formats.data());
  const auto fault = [&](std::string_view what) {
    return talk.fault(FaultCode::bad_input, path, what, as_path(path)).error().what;
  };
  if (data == nullptr) {
    stop_if_asked();
    refuse(fault("expected a file of map features"));
  }
  FeaturesRead out;
  out.source = {"features", p.filename().string(), "", "", "", "", ""};
  const int layers = data->GetLayerCount();
  for (OGRLayer* layer : data->GetLayers()) {
    if (layer->GetGeomType() == wkbNone) continue;
    const std::string layer_name = layers == 1 ? p.stem().string() : std::string(layer->GetName());
    if (layer->GetSpatialRef() == nullptr) {
      if (layer->GetFeatureCount() == 0) continue;
      refuse(fmt::format("{}: layer {}: expected a coordinate system (CRS), found none", path,
                         layer_name));
    }
    if (names_files(*layer->GetSpatialRef())) {
      refuse(fmt::format("{}: layer {}: its coordinate system names files of its own, which are "
                         "not opened",
                         path, layer_name));
    }
    const OGRSpatialReference crs = recognised(*layer->GetSpatialRef());
    out.source.crs = crs_text(crs);
    FeatureCollector collector(request, crs, path, true);
    Attributes attributes(layer_name);
    std::int64_t seen = 0;
    const auto total = static_cast<double>(std::max<GIntBig>(1, layer->GetFeatureCount(FALSE)));
    while (const OGRFeatureUniquePtr feature{layer->GetNextFeature()}) {
      if (seen++ % 1024 == 0 &&
          !goes_on(request.progress, std::min(1.0, static_cast<double>(seen) / total),
                   "reading " + out.source.file)) {
        refuse("stopped", FaultCode::cancelled);
      }
      const OGRGeometry* geometry = feature->GetGeometryRef();
      if (geometry == nullptr) continue;
      attributes.fill(*feature);
      collector.add(*geometry, attributes.tags(), attributes.name(*request.rules),
                    layers == 1
                        ? fmt::format("feature {}", feature->GetFID())
                        : fmt::format("layer {}: feature {}", layer_name, feature->GetFID()));
    }
    stop_if_asked();
    if (talk.failed()) refuse(fault("could not be read whole"));
    append(out.map, std::move(collector.map()));
    for (auto& remark : collector.remarks()) out.remarks.push_back(std::move(remark));
  }
  return out;
}

}  // namespace

Result<FeaturesRead> read_features(const std::string& path, const FeatureRequest& request) {
  gdal_ready();
  try {
    return read_all(path, request);
  } catch (const FeatureRefusal& refusal) {
    return fail(refusal.code, refusal.what);
  } catch (const std::bad_alloc&) {
    return fail(FaultCode::too_large, path + ": does not fit in memory");
  }
}

}  // namespace lodeway::io

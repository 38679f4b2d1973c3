#pragma once
/// Takes features with their attributes, as any reader meets them, to map features of the ground:
/// kind, projection, validity, cutting to the frame. Internal to io.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ogr_geometry.h>

#include "lodeway/io/gdal/detail/crs.hpp"
#include "lodeway/io/vector/features.hpp"

namespace lodeway::io {

/// Thrown by readers of features, caught at their door.
struct FeatureRefusal {
  FaultCode code;
  std::string what;
};

class FeatureCollector {
 public:
  /// `strict`: refuse rings that can be read in two ways (a user's own file); else leave them out.
  FeatureCollector(const FeatureRequest& request, const OGRSpatialReference& from, std::string file,
                   bool strict);

  /// `where` names the feature in a refusal ("feature 12"). `name` in its own letters.
  /// Throws FeatureRefusal.
  void add(const OGRGeometry& geometry, std::span<const Tag> tags, const std::string& name,
           const std::string& where);
  /// Can a box of the source's coordinates touch the ground at all?
  [[nodiscard]] bool may_touch(const Box& box) const { return box.meets(source_box_); }
  /// A place that the file holds, whether or not it becomes a feature: tells where the file lies.
  void saw(const Box& box);
  /// Where all that was seen lies, degrees.
  [[nodiscard]] std::optional<Box> lies() const;
  [[nodiscard]] mapdata::MapData& map() { return map_; }
  [[nodiscard]] std::vector<std::string> remarks() const;

 private:
  struct Given;
  void place(const OGRGeometry& geometry, const Given& given);
  void place_line(const OGRSimpleCurve& line, const Given& given);
  void place_polygon(const OGRPolygon& polygon, const Given& given);
  void place_valid(const OGRPolygon& polygon, const Given& given);
  void place_mended(const OGRPolygon& polygon, const Given& given);
  void put_area(const OGRPolygon& polygon, const Given& given);
  void put_line(std::vector<mapdata::GridPoint> points, const Given& given);
  void count(int points);

  const FeatureRequest& request_;
  std::string file_;
  bool strict_, geographic_;
  OGRSpatialReference from_, to_;
  Box frame_, source_box_;
  std::optional<Box> seen_;
  OGRPolygon frame_polygon_;
  Transformation transformation_;
  mapdata::MapData map_;
  std::int64_t points_ = 0;
  struct Count {
    std::int64_t count = 0;
    std::string first;
    void add(const std::string& where) {
      if (count++ == 0) first = where;
    }
  };
  Count no_kind_, no_place_, too_few_, mended_, left_out_;
};

}  // namespace lodeway::io

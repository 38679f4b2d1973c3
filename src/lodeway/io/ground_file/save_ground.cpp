#include <algorithm>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include <ogrsf_frmts.h>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gdal/detail/crs.hpp"
#include "lodeway/io/gdal/detail/talk.hpp"
#include "lodeway/io/ground_file/detail/schema.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/mapdata/traffic.hpp"

namespace lodeway::io {

namespace {

using mapdata::GridPoint;

struct Column {
  const char* name;
  OGRFieldType type;
  OGRFieldSubType subtype = OFSTNone;
};
constexpr Column kind_column{"kind", OFTString}, name_column{"name", OFTString},
    source_column{"source", OFTString};

/// What could not be written; GdalTalk knows why.
struct Failed {};

void must(bool worked) {
  if (!worked) throw Failed{};
}

class Table {
 public:
  Table(GDALDataset& file, const char* name, OGRwkbGeometryType type, OGRSpatialReference* crs,
        const std::vector<Column>& columns) {
    char* options[] = {const_cast<char*>("GEOMETRY_NAME=geom"), nullptr};
    layer_ = file.CreateLayer(name, crs, type, options);
    must(layer_ != nullptr);
    for (const Column& c : columns) {
      OGRFieldDefn field(c.name, c.type);
      field.SetSubType(c.subtype);
      must(layer_->CreateField(&field) == OGRERR_NONE);
    }
    feature_.reset(OGRFeature::CreateFeature(layer_->GetLayerDefn()));
  }
  Table& text(int column, const std::string& value) {
    if (!value.empty()) feature_->SetField(column, value.c_str());
    return *this;
  }
  template <class T>
  Table& value(int column, T v) {
    feature_->SetField(column, v);
    return *this;
  }
  void add(OGRGeometry* geometry = nullptr) {
    if (geometry != nullptr) must(feature_->SetGeometry(geometry) == OGRERR_NONE);
    must(layer_->CreateFeature(feature_.get()) == OGRERR_NONE);
    feature_->Reset();
  }

 private:
  OGRLayer* layer_;
  OGRFeatureUniquePtr feature_;
};

void fill(OGRSimpleCurve& curve, const std::vector<GridPoint>& points) {
  curve.setNumPoints(static_cast<int>(points.size()));
  for (std::size_t i = 0; i < points.size(); ++i) {
    curve.setPoint(static_cast<int>(i), points[i].east_m, points[i].north_m);
  }
}

void write_about(GDALDataset& file, const walking::Ground& ground) {
  Table table(file, schema::about, wkbNone, nullptr, {{"key", OFTString}, {"value", OFTString}});
  const auto add = [&](const char* key, const std::string& value) {
    table.text(0, key).text(1, value).add();
  };
  add("format", std::string("Lodeway ground ") + schema::version);
  add("name", ground.name);
  const int epsg = ground.grid.epsg();
  add("crs", epsg > 0 ? "EPSG:" + std::to_string(epsg) : ground.grid.wkt());
  add("crs_name", ground.grid.name());
  add("datum_remark", ground.grid.datum_remark());
}

void write_sources(GDALDataset& file, const walking::Ground& ground) {
  Table table(file, schema::sources, wkbNone, nullptr,
              {{"what", OFTString},
               {"file", OFTString},
               {"title", OFTString},
               {"licence", OFTString},
               {"attribution", OFTString},
               {"crs", OFTString},
               {"date", OFTString}});
  for (const mapdata::Source& s : ground.sources) {
    table.text(0, s.what).text(1, s.file).text(2, s.title).text(3, s.licence);
    table.text(4, s.attribution).text(5, s.crs).text(6, s.date).add();
  }
}

void write_kinds(GDALDataset& file, const walking::Ground& ground) {
  std::vector<std::string> names;
  for (const char* v : schema::visibilities) names.push_back(std::string("seen_m_") + v);
  for (const char* v : schema::visibilities) names.push_back(std::string("recognised_") + v);
  std::vector<Column> columns{kind_column,
                              {"leads", OFTInteger, OFSTBoolean},
                              {"catches", OFTInteger, OFSTBoolean},
                              {"ticks", OFTInteger, OFSTBoolean},
                              {"forbids", OFTInteger, OFSTBoolean},
                              {"speed_factor", OFTReal}};
  for (const auto& n : names) columns.push_back({n.c_str(), OFTReal});
  Table table(file, schema::kinds, wkbNone, nullptr, columns);
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const auto kind = static_cast<mapdata::Kind>(k);
    const mapdata::KindTraits& t = ground.kinds[kind];
    table.text(0, std::string(mapdata::kind_name(kind)));
    table.value(1, int{t.leads}).value(2, int{t.catches}).value(3, int{t.ticks});
    table.value(4, int{t.forbids}).value(5, t.speed_factor);
    for (int v = 0; v < mapdata::visibility_count; ++v) {
      const auto i = static_cast<std::size_t>(v);
      table.value(6 + v, t.seen_from_m[i]);
      table.value(6 + mapdata::visibility_count + v, t.recognised[i]);
    }
    table.add();
  }
}

Table& label(Table& table, const mapdata::Label& l) {
  return table.text(0, std::string(mapdata::kind_name(l.kind)))
      .text(1, l.name)
      .text(2, schema::origins[static_cast<std::size_t>(l.origin)]);
}

void write_features(GDALDataset& file, const mapdata::MapData& map, OGRSpatialReference* crs) {
  Table points(file, schema::points, wkbPoint, crs,
               {kind_column, name_column, source_column, {"height_m", OFTReal}});
  for (const auto& p : map.points) {
    label(points, p.label);
    if (p.height_m == p.height_m) points.value(3, p.height_m);  // NaN: not given
    OGRPoint at(p.at.east_m, p.at.north_m);
    points.add(&at);
  }
  Table lines(file, schema::lines, wkbLineString, crs,
              {kind_column,
               name_column,
               source_column,
               {"falls", OFTString},
               {"tunnel", OFTInteger, OFSTBoolean},
               {"bridge", OFTInteger, OFSTBoolean},
               {"strahler", OFTInteger},
               {"traffic", OFTString}});
  for (const auto& l : map.lines) {
    label(lines, l.label).value(4, int{l.tunnel}).value(5, int{l.bridge});
    const auto traffic = mapdata::traffic_of(l);
    if (traffic != mapdata::Traffic::unknown)
      lines.text(7, schema::traffic_words[static_cast<std::size_t>(traffic)]);
    if (l.label.kind != mapdata::Kind::road && l.order > 0) lines.value(6, int{l.order});
    if (l.falls != mapdata::Side::none) {
      lines.text(3, l.falls == mapdata::Side::left ? "left" : "right");
    }
    OGRLineString line;
    fill(line, l.points);
    lines.add(&line);
  }
  Table areas(file, schema::areas, wkbPolygon, crs, {kind_column, name_column, source_column});
  for (const auto& a : map.areas) {
    label(areas, a.label);
    OGRPolygon polygon;
    const auto add_ring = [&](const std::vector<GridPoint>& points_of_ring) {
      auto ring = std::make_unique<OGRLinearRing>();
      fill(*ring, points_of_ring);
      ring->closeRings();
      polygon.addRingDirectly(ring.release());
    };
    add_ring(a.outer);
    for (const auto& hole : a.holes) add_ring(hole);
    areas.add(&polygon);
  }
}

void write_elevation(GDALDriver& driver, const std::string& path, const walking::Ground& ground,
                     const OGRSpatialReference& crs) {
  const terrain::Elevation& heights = ground.elevation;
  const terrain::Frame& frame = heights.frame();
  if (heights.empty()) return;
  CPLStringList options;
  options.SetNameValue("APPEND_SUBDATASET", "YES");
  options.SetNameValue("RASTER_TABLE", schema::elevation);
  options.SetNameValue("RASTER_DESCRIPTION", "height above mean sea level, metres");
  options.SetNameValue("TILE_FORMAT", "TIFF");
  options.SetNameValue("GRID_CELL_ENCODING", "grid-value-is-area");
  options.SetNameValue("UOM", "m");
  Dataset raster(
      driver.Create(path.c_str(), frame.cols, frame.rows, 1, GDT_Float32, options.List()));
  must(raster != nullptr);
  double transform[] = {frame.west_m, frame.cell_m, 0, frame.north_m, 0, -frame.cell_m};
  must(raster->SetSpatialRef(&crs) == CE_None && raster->SetGeoTransform(transform) == CE_None);
  GDALRasterBand* band = raster->GetRasterBand(1);
  // GDAL 3.6 sets it and yet answers CE_Failure, silently; a true failure is heard by GdalTalk.
  static_cast<void>(band->SetNoDataValue(static_cast<double>(schema::void_height)));
  std::vector<float> row(static_cast<std::size_t>(frame.cols));
  for (int r = 0; r < frame.rows; ++r) {
    const auto from = heights.row(r);
    for (std::size_t c = 0; c < row.size(); ++c) {
      row[c] = from[c] == from[c] ? from[c] : schema::void_height;
    }
    must(band->RasterIO(GF_Write, 0, r, frame.cols, 1, row.data(), frame.cols, 1, GDT_Float32, 0, 0,
                        nullptr) == CE_None);
  }
}

/// One byte a cell, as a picture in grey: 0 is not known, then the order of terrain::Landform.
void write_landforms(GDALDriver& driver, const std::string& path, const walking::Ground& ground,
                     const OGRSpatialReference& crs) {
  const auto& forms = ground.landforms;
  const terrain::Frame& frame = forms.frame();
  if (forms.empty()) return;
  CPLStringList options;
  options.SetNameValue("APPEND_SUBDATASET", "YES");
  options.SetNameValue("RASTER_TABLE", schema::landforms);
  options.SetNameValue("RASTER_DESCRIPTION",
                       "landform: 1 flat, 2 summit, 3 ridge, 4 shoulder, 5 spur, 6 slope, "
                       "7 hollow, 8 footslope, 9 valley, 10 pit; 0 not known");
  options.SetNameValue("TILE_FORMAT", "PNG");
  Dataset raster(driver.Create(path.c_str(), frame.cols, frame.rows, 1, GDT_Byte, options.List()));
  must(raster != nullptr);
  double transform[] = {frame.west_m, frame.cell_m, 0, frame.north_m, 0, -frame.cell_m};
  must(raster->SetSpatialRef(&crs) == CE_None && raster->SetGeoTransform(transform) == CE_None);
  std::vector<unsigned char> row(static_cast<std::size_t>(frame.cols));
  for (int r = 0; r < frame.rows; ++r) {
    std::ranges::transform(forms.row(r), row.begin(),
                           [](terrain::Landform f) { return static_cast<unsigned char>(f); });
    must(raster->GetRasterBand(1)->RasterIO(GF_Write, 0, r, frame.cols, 1, row.data(), frame.cols,
                                            1, GDT_Byte, 0, 0, nullptr) == CE_None);
  }
}

void write_all(const walking::Ground& ground, const std::string& path) {
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GPKG");
  must(driver != nullptr);
  OGRSpatialReference crs = crs_of(ground.grid);
  {
    Dataset file(driver->Create(path.c_str(), 0, 0, 0, GDT_Unknown, nullptr));
    must(file != nullptr && file->StartTransaction() == OGRERR_NONE);
    write_about(*file, ground);
    write_sources(*file, ground);
    write_kinds(*file, ground);
    write_features(*file, ground.map, &crs);
    must(file->CommitTransaction() == OGRERR_NONE);
  }
  write_elevation(*driver, path, ground, crs);
  write_landforms(*driver, path, ground, crs);
}

}  // namespace

Result<void> save_ground(const walking::Ground& ground, const std::string& path) {
  gdal_ready();
  Beside beside(path);
  const std::string& temporary = beside.temporary();
  const auto clean = [&] {
    for (const char* rest : {"-journal", "-wal", "-shm"}) std::remove((temporary + rest).c_str());
  };
  GdalTalk talk;
  // The same ground, the same bytes: GDAL would write the hour. Flushed once, when it is whole.
  const GdalSetting date("OGR_CURRENT_DATE", "2000-01-01T00:00:00.000Z");
  const GdalSetting synchronous("OGR_SQLITE_SYNCHRONOUS", "OFF");
  bool worked = true;
  try {
    write_all(ground, temporary);
  } catch (const Failed&) {
    worked = false;
  }
  if (!worked || talk.failed()) {  // closing reports only through the talk
    auto fault = talk.fault(FaultCode::io_failed, path, "could not be written", temporary);
    clean();
    return fault;
  }
  return beside.keep();
}

}  // namespace lodeway::io

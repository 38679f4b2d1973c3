#include "lodeway/io/gpx/gpx_track.hpp"

#include <atomic>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <limits>
#include <memory>
#include <optional>

#include <cpl_error.h>
#include <cpl_vsi.h>
#include <fmt/format.h>
#include <gdal.h>
#include <ogr_api.h>

namespace lodeway::io {

namespace {

struct Close {
  void operator()(void* d) const { GDALClose(d); }
};
struct Destroy {
  void operator()(void* f) const { OGR_F_Destroy(f); }
};
struct Quiet {
  Quiet() { CPLPushErrorHandler(CPLQuietErrorHandler); }
  ~Quiet() { CPLPopErrorHandler(); }
  Quiet(const Quiet&) = delete;
  Quiet& operator=(const Quiet&) = delete;
};

double time_of(OGRFeatureH f, int field) {
  int year = 0, month = 0, day = 0, hour = 0, minute = 0, zone = 0;
  float second = 0;
  if (field < 0 || !OGR_F_IsFieldSetAndNotNull(f, field) ||
      !OGR_F_GetFieldAsDateTimeEx(f, field, &year, &month, &day, &hour, &minute, &second, &zone))
    return std::numeric_limits<double>::quiet_NaN();
  const std::chrono::year_month_day date{std::chrono::year{year},
                                         std::chrono::month{static_cast<unsigned>(month)},
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (!date.ok()) return std::numeric_limits<double>::quiet_NaN();
  const auto days = std::chrono::sys_days{date}.time_since_epoch().count();
  // GDAL: 100 is UTC, each step a quarter of an hour east of it, 0 and 1 not known or local.
  const double offset_s = zone > 1 ? (zone - 100) * 900.0 : 0;
  return static_cast<double>(days) * 86400 + hour * 3600.0 + minute * 60.0 +
         static_cast<double>(second) - offset_s;
}

std::optional<Fault> add_points(OGRLayerH layer, const char* group, const std::string& path,
                                learn::Track& out) {
  const auto definition = OGR_L_GetLayerDefn(layer);
  const auto field = [&](const char* name) { return OGR_FD_GetFieldIndex(definition, name); };
  const int ele = field("ele"), time = field("time"), of = field(group),
            segment = field("track_seg_id");
  std::uint32_t number = 0;
  long long last = -1;
  OGR_L_ResetReading(layer);
  while (const std::unique_ptr<void, Destroy> f{OGR_L_GetNextFeature(layer)}) {
    const auto geometry = OGR_F_GetGeometryRef(f.get());
    learn::TrackPoint p;
    if (geometry != nullptr) p.at = {OGR_G_GetY(geometry, 0), OGR_G_GetX(geometry, 0)};
    if (geometry == nullptr || !(std::abs(p.at.lat_deg) <= 90) ||
        !(std::abs(p.at.lon_deg) <= 180)) {
      return Fault{FaultCode::bad_input,
                   fmt::format("{}: point {} of the track: expected a latitude within 90 and a "
                               "longitude within 180",
                               path, out.points.size() + 1)};
    }
    p.height_m = ele >= 0 && OGR_F_IsFieldSetAndNotNull(f.get(), ele)
                     ? OGR_F_GetFieldAsDouble(f.get(), ele)
                     : std::numeric_limits<double>::quiet_NaN();
    p.time_s = time_of(f.get(), time);
    const long long here = OGR_F_GetFieldAsInteger64(f.get(), of) * 1000000LL +
                           (segment >= 0 ? OGR_F_GetFieldAsInteger64(f.get(), segment) : 0);
    if (last >= 0 && here != last) ++number;
    last = here;
    p.segment = number;
    out.points.push_back(p);
    if (out.points.size() > most_track_points)
      return Fault{FaultCode::too_large,
                   fmt::format("{}: expected at most {} points", path, most_track_points)};
  }
  return std::nullopt;
}

}  // namespace

namespace {
/// `open` is what the library opens, `path` what people are told.
Result<learn::Track> read_opened(const std::string& open, const std::string& path,
                                 const std::string& name) {
  GDALAllRegister();
  const Quiet quiet;
  const char* const drivers[] = {"GPX", nullptr};
  CPLErrorReset();
  const std::unique_ptr<void, Close> file{
      GDALOpenEx(open.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, nullptr, nullptr)};
  if (!file) return fail(FaultCode::bad_input, path + ": expected a GPX file");
  learn::Track out;
  out.file = name.empty() ? std::filesystem::path(path).filename().string() : name;
  for (const auto& [layer_name, group, route] :
       {std::tuple{"track_points", "track_fid", false}, {"route_points", "route_fid", true}}) {
    const auto layer = GDALDatasetGetLayerByName(file.get(), layer_name);
    if (layer == nullptr) continue;
    CPLErrorReset();
    if (const auto fault = add_points(layer, group, path, out)) return std::unexpected(*fault);
    if (CPLGetLastErrorType() >= CE_Failure) {
      return fail(FaultCode::bad_input,
                  fmt::format("{}: not a whole GPX file: it breaks off after {} points", path,
                              out.points.size()));
    }
    if (out.points.empty()) continue;
    out.route = route;
    break;
  }
  return out;
}
}  // namespace

Result<learn::Track> read_gpx_track(const std::string& path, const std::string& name) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error))
    return fail(FaultCode::io_failed, path + ": expected a GPX file that can be read");
  return read_opened(path, path, name);
}

Result<learn::Track> gpx_track_of_bytes(std::string_view bytes, const std::string& name) {
  static std::atomic<unsigned> counter = 0;
  const auto path = fmt::format("/vsimem/lodeway-track-{}.gpx", counter++);
  // The library only reads; it asks for a pointer that it may write to.
  std::vector<unsigned char> copy(bytes.begin(), bytes.end());
  if (copy.empty()) return fail(FaultCode::bad_input, name + ": expected a GPX file, it is empty");
  auto* file = VSIFileFromMemBuffer(path.c_str(), copy.data(), copy.size(), FALSE);
  if (file == nullptr) return fail(FaultCode::io_failed, name + ": could not be read");
  VSIFCloseL(file);
  auto out = read_opened(path, name, name);
  VSIUnlink(path.c_str());
  return out;
}

}  // namespace lodeway::io

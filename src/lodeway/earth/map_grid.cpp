#include "lodeway/earth/map_grid.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <proj.h>
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/TransverseMercator.hpp>
#include <GeographicLib/UTMUPS.hpp>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::earth {

namespace {

constexpr double false_east_m = 500000, false_north_m = 10000000;
constexpr double area_margin_deg = 1;  // a ground may reach over the edge of its grid's area
constexpr double most_from_meridian_deg = 30;  // the series keeps 5 nm to 35 degrees (Karney 2011)

struct DestroyPj {
  void operator()(PJ* p) const { proj_destroy(p); }
};
using Pj = std::unique_ptr<PJ, DestroyPj>;
struct DestroyContext {
  void operator()(PJ_CONTEXT* c) const { proj_context_destroy(c); }
};

/// A PROJ object must not be used by two threads: each thread makes its own, once a grid.
PJ_CONTEXT* thread_context() {
  thread_local const std::unique_ptr<PJ_CONTEXT, DestroyContext> context = [] {
    std::unique_ptr<PJ_CONTEXT, DestroyContext> c{proj_context_create()};
    proj_log_level(c.get(), PJ_LOG_NONE);
    proj_context_set_enable_network(c.get(), 0);
    return c;
  }();
  return context.get();
}

/// Where a CRS is meant to be used; none known for one that only a formula describes.
struct Area {
  double west = 0, south = 0, east = 0, north = 0;
  [[nodiscard]] bool holds(Geographic at) const {
    const double width = east < west ? east - west + 360 : east - west;
    const double from_west = std::remainder(at.lon_deg - (west + width / 2), 360.0);
    return std::abs(from_west) <= width / 2 + area_margin_deg &&
           at.lat_deg >= south - area_margin_deg && at.lat_deg <= north + area_margin_deg;
  }
  [[nodiscard]] Geographic middle() const {
    const double width = east < west ? east - west + 360 : east - west;
    return {(south + north) / 2, west + width / 2};
  }
};

std::optional<Area> area_of(PJ_CONTEXT* c, const PJ* crs) {
  Area a;
  if (proj_get_area_of_use(c, crs, &a.west, &a.south, &a.east, &a.north, nullptr) == 0 ||
      a.west < -180) {
    return std::nullopt;
  }
  return a;
}

/// From WGS 84 longitude and latitude to east and north: ONE shift of the datum for the whole grid,
/// the best in the middle of its area. PROJ would change from one to another by place, and a
/// bearing taken across such a line can be degrees off. A rough guess of the shift is taken only
/// where nothing better is known: it can be off by hundreds of metres, and silently.
Pj make_transformation(const std::string& text, bool rough) {
  PJ_CONTEXT* const c = thread_context();
  const Pj from{proj_create(c, "EPSG:4326")}, to{proj_create(c, text.c_str())};
  if (!from || !to) return nullptr;
  const char* const options[] = {rough ? nullptr : "ALLOW_BALLPARK=NO", nullptr};
  const Pj raw{proj_create_crs_to_crs_from_pj(c, from.get(), to.get(), nullptr, options)};
  if (!raw) return nullptr;
  Pj any{proj_normalize_for_visualization(c, raw.get())};
  if (const auto area = area_of(c, to.get()); any && area) {
    (void)proj_trans(any.get(), PJ_FWD,
                     proj_coord(area->middle().lon_deg, area->middle().lat_deg, 0, 0));
    if (Pj used{proj_trans_get_last_used_operation(any.get())}; used) return used;
  }
  return any;
}

PJ* thread_transformation(const std::string& text, bool rough) {
  (void)thread_context();  // made first, so destroyed last
  constexpr std::size_t most_kept = 16;
  thread_local std::vector<std::pair<std::string, Pj>> made;
  const std::string key = (rough ? "rough " : "") + text;
  for (const auto& [name, pj] : made) {
    if (name == key) return pj.get();
  }
  if (made.size() == most_kept) made.erase(made.begin());
  made.emplace_back(key, make_transformation(text, rough));
  return made.back().second.get();
}

/// East and north in either order; or two that meet at a pole. West- and southing grids are
/// refused: their figures would turn every bearing round.
bool axes_understood(PJ_CONTEXT* c, const PJ* axes) {
  std::array<std::string, 2> way;
  for (int i = 0; i < 2; ++i) {
    const char* direction = nullptr;
    double to_metre = 0;
    if (proj_cs_get_axis_info(c, axes, i, nullptr, nullptr, &direction, &to_metre, nullptr, nullptr,
                              nullptr) == 0 ||
        to_metre != 1.0 || direction == nullptr) {
      return false;
    }
    way[static_cast<std::size_t>(i)] = direction;
  }
  const bool flat =
      (way[0] == "east" && way[1] == "north") || (way[0] == "north" && way[1] == "east");
  return flat || (way[0] == way[1] && (way[0] == "north" || way[0] == "south"));
}

std::string utm_wkt(int zone, bool north, int epsg) {
  return fmt::format(
      R"(PROJCS["WGS 84 / UTM zone {}{}",GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4326"]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",{}],PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",{}],UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST],AXIS["Northing",NORTH],AUTHORITY["EPSG","{}"]])",
      zone, north ? "N" : "S", 6 * zone - 183, north ? 0 : 10000000, epsg);
}

/// The zone of "EPSG:326zz" or "EPSG:327zz", 0 for anything else.
std::pair<int, bool> utm_of(const std::string& text) {
  int code = 0;
  if (!text.starts_with("EPSG:") ||
      std::from_chars(text.data() + 5, text.data() + text.size(), code).ptr !=
          text.data() + text.size()) {
    return {0, true};
  }
  const bool north = code / 100 == 326, south = code / 100 == 327;
  const int zone = code % 100;
  return {(north || south) && zone >= 1 && zone <= 60 ? zone : 0, north};
}

/// A formula or a text (WKT) may name grids of a datum shift, which PROJ would open, wherever they
/// lie. Such a text can come with somebody else's ground.
bool names_files(std::string text) {
  constexpr std::size_t most_letters = 20'000;
  if (text.size() > most_letters) return true;
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c;
  for (const char* word : {"grids", "+init", "init=", "file=", "parameterfile", "pipeline"}) {
    if (text.find(word) != std::string::npos) return true;
  }
  return false;
}

bool finite(double a, double b) { return std::isfinite(a) && std::isfinite(b); }

}  // namespace

struct MapGrid::Impl {
  int zone = 0;  ///< UTM on WGS 84, or 0: PROJ does it
  bool north = true;
  int epsg = 0;
  std::string text, name, wkt, remark;
  bool rough = false;        ///< no sure shift from WGS 84 is known
  std::optional<Area> area;  ///< not for UTM on WGS 84

  static std::shared_ptr<const Impl> utm(int zone, bool north) {
    const int epsg = (north ? 32600 : 32700) + zone;
    return std::make_shared<const Impl>(
        Impl{zone, north, epsg, fmt::format("EPSG:{}", epsg),
             fmt::format("WGS 84 / UTM zone {}{}", zone, north ? "N" : "S"),
             utm_wkt(zone, north, epsg), "", false, std::nullopt});
  }
  static Result<std::shared_ptr<const Impl>> from_proj(const std::string& given);
};

Result<std::shared_ptr<const MapGrid::Impl>> MapGrid::Impl::from_proj(const std::string& given) {
  PJ_CONTEXT* const c = thread_context();
  const auto refuse = [&](const char* why) {
    return fail(FaultCode::bad_input,
                fmt::format("grid \"{}\": expected a projected CRS in metres, {}",
                            units::plain(given, 60), why));
  };
  if (names_files(given)) return refuse("one that names no files of its own");
  const bool formula = given.starts_with("+proj=") && given.find("+type=") == std::string::npos;
  Impl out;
  out.text = formula ? given + " +type=crs" : given;
  Pj crs{proj_create(c, out.text.c_str())};
  if (!crs) return refuse("this one is not known");
  if (proj_get_type(crs.get()) == PJ_TYPE_COMPOUND_CRS)
    crs.reset(proj_crs_get_sub_crs(c, crs.get(), 0));
  if (crs && proj_get_type(crs.get()) == PJ_TYPE_BOUND_CRS)
    crs.reset(proj_get_source_crs(c, crs.get()));
  if (!crs || proj_get_type(crs.get()) != PJ_TYPE_PROJECTED_CRS)
    return refuse("this one is not projected");
  const Pj axes{proj_crs_get_coordinate_system(c, crs.get())};
  if (!axes || !axes_understood(c, axes.get())) {
    return refuse("with axes to the east and the north, this one has others");
  }
  const char* const wkt = proj_as_wkt(c, crs.get(), PJ_WKT1_GDAL, nullptr);
  out.wkt = wkt != nullptr ? wkt : given;
  const char* const name = proj_get_name(crs.get());
  out.name = name != nullptr && std::string_view(name) != "unknown" ? name : "unnamed grid";
  const char* const code = proj_get_id_code(crs.get(), 0);
  const char* const authority = proj_get_id_auth_name(crs.get(), 0);
  if (code != nullptr && authority != nullptr && std::string_view(authority) == "EPSG") {
    out.epsg = std::atoi(code);
    out.text = fmt::format("EPSG:{}", out.epsg);
    if (const auto [zone, north] = utm_of(out.text); zone > 0) return utm(zone, north);
  }
  out.area = area_of(c, crs.get());
  PJ* t = thread_transformation(out.text, false);
  if (t == nullptr) {
    out.rough = true;
    t = thread_transformation(out.text, true);
    if (t == nullptr) return refuse("no way is known from WGS 84 to this one");
    out.remark = fmt::format(
        "How {} lies to WGS 84 is not known: places may be off by hundreds of metres", out.name);
  } else {
    const double accuracy = proj_coordoperation_get_accuracy(c, t);
    if (accuracy < 0) {
      out.remark = fmt::format("The shift from WGS 84 to {} may be off by some metres", out.name);
    } else if (accuracy >= 1) {
      out.remark = fmt::format(
          "The shift from WGS 84 to {} is good to about {:.0f} m in the middle of its area",
          out.name, accuracy);
    }
  }
  return std::make_shared<const Impl>(std::move(out));
}

MapGrid::MapGrid(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

MapGrid::MapGrid() {
  static const auto place_holder = Impl::utm(31, true);
  impl_ = place_holder;
}

Result<MapGrid> MapGrid::utm_at(Geographic centre) {
  if (!finite(centre.lat_deg, centre.lon_deg) || std::abs(centre.lat_deg) > 90) {
    return fail(FaultCode::bad_input, "latitude: expected a number within 90");
  }
  const int zone = GeographicLib::UTMUPS::StandardZone(centre.lat_deg, centre.lon_deg);
  if (zone < 1) {
    return fail(
        FaultCode::outside_validity,
        fmt::format("latitude {}: expected 80 S to 84 N, where UTM is used", centre.lat_deg));
  }
  return MapGrid(Impl::utm(zone, centre.lat_deg >= 0));
}

Result<MapGrid> MapGrid::from_text(const std::string& crs) {
  if (const auto [zone, north] = utm_of(crs); zone > 0) return MapGrid(Impl::utm(zone, north));
  auto impl = Impl::from_proj(crs);
  if (!impl) return std::unexpected(impl.error());
  return MapGrid(*std::move(impl));
}

Result<GridPoint> MapGrid::to_grid(Geographic at) const {
  const auto outside = [&] {
    return fail(FaultCode::outside_validity, fmt::format("{:.5f} {:.5f}: outside of the grid {}",
                                                         at.lat_deg, at.lon_deg, impl_->name));
  };
  if (!finite(at.lat_deg, at.lon_deg) || std::abs(at.lat_deg) > 90) return outside();
  if (impl_->zone > 0) {
    const double meridian = 6.0 * impl_->zone - 183;
    if (std::abs(std::remainder(at.lon_deg - meridian, 360.0)) > most_from_meridian_deg)
      return outside();
    double x = 0, y = 0;
    GeographicLib::TransverseMercator::UTM().Forward(meridian, at.lat_deg, at.lon_deg, x, y);
    return GridPoint{x + false_east_m, y + (impl_->north ? 0 : false_north_m)};
  }
  if (impl_->area && !impl_->area->holds(at)) return outside();
  PJ* const t = thread_transformation(impl_->text, impl_->rough);
  const PJ_COORD out = proj_trans(t, PJ_FWD, proj_coord(at.lon_deg, at.lat_deg, 0, 0));
  if (!finite(out.xy.x, out.xy.y)) return outside();
  return GridPoint{out.xy.x, out.xy.y};
}

Result<Geographic> MapGrid::to_geographic(GridPoint at) const {
  const auto outside = [&] {
    return fail(FaultCode::outside_validity, fmt::format("{:.0f} {:.0f}: outside of the grid {}",
                                                         at.east_m, at.north_m, impl_->name));
  };
  if (!finite(at.east_m, at.north_m)) return outside();
  if (impl_->zone > 0) {
    const double y = at.north_m - (impl_->north ? 0 : false_north_m);
    if (std::abs(at.east_m - false_east_m) > 3.5e6 || std::abs(y) > 1.0e7) return outside();
    Geographic out;
    GeographicLib::TransverseMercator::UTM().Reverse(
        6.0 * impl_->zone - 183, at.east_m - false_east_m, y, out.lat_deg, out.lon_deg);
    return out;
  }
  PJ* const t = thread_transformation(impl_->text, impl_->rough);
  // A shift of the datum changes heights too, which a flat grid does not keep: PROJ's inverse then
  // misses by a millimetre. What is missed is put right once, second order is below 1e-6 m.
  const PJ_COORD first = proj_trans(t, PJ_INV, proj_coord(at.east_m, at.north_m, 0, 0));
  const PJ_COORD again = proj_trans(t, PJ_FWD, proj_coord(first.lp.lam, first.lp.phi, 0, 0));
  if (!finite(again.xy.x, again.xy.y)) return outside();
  const PJ_COORD out = proj_trans(
      t, PJ_INV, proj_coord(2 * at.east_m - again.xy.x, 2 * at.north_m - again.xy.y, 0, 0));
  const Geographic place{out.lp.phi, out.lp.lam};
  if (!finite(out.lp.lam, out.lp.phi) || (impl_->area && !impl_->area->holds(place)))
    return outside();
  return place;
}

Result<units::Convergence> MapGrid::convergence(GridPoint at) const {
  const auto middle = to_geographic(at);
  if (!middle) return std::unexpected(middle.error());
  if (impl_->zone > 0) {
    double x = 0, y = 0, gamma = 0, k = 0;
    GeographicLib::TransverseMercator::UTM().Forward(6.0 * impl_->zone - 183, middle->lat_deg,
                                                     middle->lon_deg, x, y, gamma, k);
    return units::Convergence(units::Angle::degrees(gamma));
  }
  constexpr double step_deg = 5e-4;
  const auto north = to_grid({middle->lat_deg + step_deg, middle->lon_deg});
  const auto south = to_grid({middle->lat_deg - step_deg, middle->lon_deg});
  if (!north || !south) return std::unexpected(north ? south.error() : north.error());
  const auto true_north = *north - *south;
  return units::Convergence(
      units::Angle::radians(-std::atan2(true_north.east_m, true_north.north_m)));
}

Result<double> MapGrid::scale(GridPoint at, units::GridBearing along) const {
  constexpr double half_m = 50;
  const auto a = to_geographic(step(at, along, -half_m)),
             b = to_geographic(step(at, along, half_m));
  if (!a || !b) return std::unexpected(a ? b.error() : a.error());
  double ground = 0;
  GeographicLib::Geodesic::WGS84().Inverse(a->lat_deg, a->lon_deg, b->lat_deg, b->lon_deg, ground);
  return 2 * half_m / ground;
}

int MapGrid::epsg() const { return impl_->epsg; }
const std::string& MapGrid::name() const { return impl_->name; }
const std::string& MapGrid::wkt() const { return impl_->wkt; }
std::string MapGrid::datum_remark() const { return impl_->remark; }

}  // namespace lodeway::earth

#include "lodeway/route/field/party_ground.hpp"

#include "lodeway/reckoning/judge/judge.hpp"

namespace lodeway::route {

PartySort sort_of(const walking::Request& request) {
  const auto& p = request.party;
  return {p.model, p.flat_speed_kmh, p.max_slope_deg, p.ford_streams, request.avoid};
}

PartyGround::PartyGround(const walking::Ground& ground, const walking::Request& request,
                         const terrain::Raster<float>& slopes, numeric::Parallel& parallel) {
  walking::Cover cover(ground, request, &slopes);
  auto barred = reckoning::forbidden_of(cover);
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0) {
      prepared = std::make_unique<const Prepared>(ground, request, std::move(cover), parallel);
    } else {
      hazards = std::make_shared<const reckoning::HazardGround>(std::move(barred));
    }
  });
}

Result<RawPath> PartyGround::path(const walking::Ground& ground, const walking::Waypoint& from,
                                  const walking::Waypoint& to) const {
  const std::pair ends{from.at, to.at};
  if (const auto known = paths_.find(ends)) return *known;
  auto found = find_path(ground, *prepared, from, to, &ends_);
  if (found) paths_.keep(ends, std::make_shared<const RawPath>(*found));
  return found;
}

namespace {
std::size_t most_kept(std::size_t cells) {
  if (cells <= PartyGrounds::three_cells) return 3;
  return cells <= PartyGrounds::one_cells ? 1 : 0;
}
}  // namespace

PartyGrounds::PartyGrounds(const walking::Ground& ground)
    : kept_(most_kept(ground.elevation.cells().size())) {}

std::shared_ptr<const PartyGround> PartyGrounds::of(const walking::Ground& ground,
                                                    const walking::Request& request,
                                                    const terrain::Raster<float>& slopes,
                                                    numeric::Parallel& parallel) {
  const auto sort = sort_of(request);
  auto known = kept_.find(sort);
  if (!known) {
    known = std::make_shared<const PartyGround>(ground, request, slopes, parallel);
    kept_.keep(sort, known);
  }
  return known;
}

}  // namespace lodeway::route

#include "lodeway/tasks/party_of_trip.hpp"

#include <algorithm>
#include <iterator>

#include "lodeway/io/party/party_file.hpp"
#include "lodeway/learn/figures/party_figures.hpp"

namespace lodeway::tasks {

namespace {
learn::Basis basis_of(const trip::Trip& trip, const mapdata::KindTable& kinds) {
  learn::Basis basis;
  basis.party = trip.request.party;
  basis.kinds = kinds;
  basis.today = trip.date;
  basis.who = trip.compass_holder;
  return basis;
}
}  // namespace

LearntTables take_party_record(trip::Trip& trip, const mapdata::KindTable& kinds,
                               const learn::PartyRecord& record) {
  const auto basis = basis_of(trip, kinds);
  const auto figures = learn::figures_of(record, basis);
  trip.request.party = learn::learnt_party(trip.request.party, figures, basis);
  LearntTables learnt{learn::learnt_chances(figures, basis), learn::learnt_kinds(figures, basis)};
  trip.request.party.chances = with_stated(learnt.chances, trip.request.party.chances);
  return learnt;
}

Result<sight::Changes> take_party_file(trip::Trip& trip, walking::Ground& ground,
                                       const learn::PartyRecord* instead) {
  if (instead == nullptr && trip.party_file.empty()) return sight::Changes{};
  Result<learn::PartyRecord> record;
  if (instead == nullptr) record = io::read_party_file(trip.party_file);
  if (!record) return std::unexpected(record.error());
  if (instead == nullptr) instead = &*record;
  auto learnt = take_party_record(trip, ground.kinds, *instead);
  for (const auto& change : learnt.kinds) {
    ground.kinds.take(change);
    trip.kinds.push_back(change);
  }
  return std::move(learnt.chances);
}

sight::Changes with_stated(sight::Changes learnt, const sight::Changes& stated) {
  std::ranges::copy(stated.chances, std::back_inserter(learnt.chances));
  std::ranges::copy(stated.settings, std::back_inserter(learnt.settings));
  std::ranges::copy(stated.kinds, std::back_inserter(learnt.kinds));
  return learnt;
}

}  // namespace lodeway::tasks

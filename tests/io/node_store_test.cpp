// Places of nodes by number: what went in comes out, whatever the order, in few bytes.
#include "lodeway/io/osm/detail/node_store.hpp"

#include <cstdio>
#include <map>

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

namespace lodeway::io {
namespace {

TEST(NodeStore, WidestSteps) {
  NodeStore store;
  EXPECT_FALSE(store.find(0));
  const std::vector<std::pair<std::uint64_t, NodePlace>> nodes{
      {0, {INT32_MIN, INT32_MAX}}, {1, {INT32_MAX, INT32_MIN}}, {UINT64_MAX, {0, -1}}};
  for (const auto& [id, place] : nodes) store.add(id, place);
  for (const auto& [id, place] : nodes) EXPECT_EQ(store.find(id), place) << id;
  EXPECT_FALSE(store.find(2));
  EXPECT_FALSE(store.find(UINT64_MAX - 1));
}

// Against the standard library's map: numbers that mostly rise, some that fall or come twice.
RC_GTEST_PROP(NodeStoreLaw, AnswersAsAMapDoes, ()) {
  NodeStore store;
  std::map<std::uint64_t, NodePlace> judge;
  std::uint64_t id = 0;
  const int count = *rc::gen::inRange(0, 400);
  for (int i = 0; i < count; ++i) {
    id = *rc::gen::inRange(0, 12) == 0 ? *rc::gen::inRange<std::uint64_t>(0, 5000)
                                       : id + *rc::gen::inRange<std::uint64_t>(1, 40);
    const NodePlace place{*rc::gen::arbitrary<std::int32_t>(), *rc::gen::inRange(-900, 900)};
    store.add(id, place);
    judge[id] = place;
    // asked for in between, too, as negative numbers' ways may come before positive nodes
    if (i % 50 == 49) {
      store.sort();
      RC_ASSERT(store.find(id) == place);
    }
  }
  store.sort();
  for (std::uint64_t ask = 0; ask < 6000; ask += 1 + ask % 3) {
    const auto found = judge.find(ask);
    RC_ASSERT(store.find(ask) ==
              (found == judge.end() ? std::nullopt : std::optional(found->second)));
  }
}

// Nodes as an extract has them: numbers that rise by some tens, runs of nodes some metres apart.
TEST(NodeStore, ACountryInFewBytes) {
  NodeStore store;
  constexpr std::size_t many = 3'000'000;
  std::uint64_t id = 1'000'000'000, mix = 12345;
  NodePlace at{95'000'000, 470'000'000};
  for (std::size_t i = 0; i < many; ++i) {
    mix = mix * 6364136223846793005ULL + 1442695040888963407ULL;
    id += 1 + (mix >> 60) * ((mix >> 40) % 8 == 0 ? 100 : 1);
    at.x += static_cast<std::int32_t>((mix >> 33) % 4001) - 2000;  // 20 m
    at.y += static_cast<std::int32_t>((mix >> 21) % 4001) - 2000;
    if (i % 30 == 0) at = {95'000'000 + static_cast<std::int32_t>(mix % 1'000'000), 471'000'000};
    store.add(id, at);
  }
  const double bytes = static_cast<double>(store.used_bytes()) / many;
  std::printf("%.2f bytes a node\n", bytes);
  EXPECT_LT(bytes, 8.0);
  EXPECT_EQ(store.find(id), at);
}

}  // namespace
}  // namespace lodeway::io

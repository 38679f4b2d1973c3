#include "lodeway/learn/track/track.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lodeway/io/gpx/gpx_track.hpp"
#include "support/support.hpp"

namespace lodeway::learn {
namespace {

Reading reading_of(const std::string& file) {
  const auto track = io::read_gpx_track(file);
  EXPECT_TRUE(track) << track.error().what;
  return read_track(*track);
}

TEST(RealTracks, WalksAreKeptAndTheOthersRefusedWithTheirReason) {
  LODEWAY_NEEDS_SHARED(data);
  struct Case {
    const char* file;
    Used used;
    Why why;
    double least_km, most_km;
  };
  for (const Case& c :
       {Case{"walk-garmisch-2019-05-01", Used::whole, Why::walked, 14, 18},
        {"walk-triglav-descent-2016-07-22", Used::whole, Why::walked, 6, 7.5},
        {"walk-arches-2006-04-08", Used::whole, Why::walked, 2, 3},
        {"walk-black-forest-2008-07-12", Used::whole, Why::walked, 1, 1.8},
        {"mixed-boulder-2003", Used::part, Why::walked, 0.5, 3.6},
        {"negative-run-2017-07-29", Used::refused, Why::run, 0, 0},
        {"negative-rides-blue-hills-2001", Used::refused, Why::ride, 0, 0},
        {"negative-broken-times-mojstrovka", Used::refused, Why::broken_times, 0, 0},
        {"negative-uniform-times-errigal", Used::refused, Why::made_up_times, 0, 0}}) {
    const auto r = reading_of(data + "/gpx/" + c.file + ".gpx");
    SCOPED_TRACE(std::string(c.file) + ": " + r.words);
    EXPECT_EQ(used_name(r.used), used_name(c.used));
    ASSERT_FALSE(r.why.empty());
    EXPECT_EQ(why_name(r.why.front()), why_name(c.why));
    EXPECT_GE(r.learned_km, c.least_km);
    EXPECT_LE(r.learned_km, c.most_km);
    EXPECT_FALSE(r.words.empty());
  }
}

}  // namespace
}  // namespace lodeway::learn

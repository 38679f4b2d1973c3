// The parts of the server without a socket: who may ask, paths, edits, events, jobs.
#include <atomic>
#include <thread>

#include <gtest/gtest.h>

#include "apps/server/store/edits.hpp"
#include "apps/server/http/events.hpp"
#include "apps/server/http/guard.hpp"
#include "apps/server/store/jobs.hpp"
#include "apps/server/http/router.hpp"
#include "apps/server/store/store.hpp"
#include "apps/server/store/uploads.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;
using namespace lodeway::server;
using namespace std::chrono_literals;

TEST(Edits, PathsMeetWhenOneIsPartOfTheOther) {
  EXPECT_TRUE(meet("/document/party", "/document/party/size"));
  EXPECT_TRUE(meet("/document/party/size", "/document/party"));
  EXPECT_TRUE(meet("/document/name", "/document/name"));
  EXPECT_FALSE(meet("/document/name", "/document/names"));
  EXPECT_FALSE(meet("/document/party/size", "/document/party/skill"));
}

TEST(Edits, MakeTablesAndTakeKeysOut) {
  const Json state = {{"document", {{"name", "A"}}},
                      {"ground_id", nullptr},
                      {"chosen_way", nullptr},
                      {"sheets", nullptr}};
  const auto made = apply_changes(
      state, Json::parse(R"([{"path": "/document/party/errors/distance_sigma", "value": 0.1},
      {"path": "/document/name", "value": null}, {"path": "/ground_id", "value": "g"}, {"path": "/document/home/phone", "value": null}])"));
  ASSERT_TRUE(made) << made.error().what;
  EXPECT_EQ(made->state["document"].dump(), R"({"party":{"errors":{"distance_sigma":0.1}}})");
  EXPECT_EQ(made->state["ground_id"], "g");
  EXPECT_EQ(made->touched.size(), 4U);
}

TEST(Guard, KeysAreComparedWhole) {
  EXPECT_TRUE(same_key("abc", "abc"));
  EXPECT_FALSE(same_key("abc", "abd"));
  EXPECT_FALSE(same_key("abc", "ab"));
  EXPECT_FALSE(same_key("abc", ""));
  EXPECT_FALSE(same_key("ab", "abab"));
}

TEST(Guard, KnowsItsOwnAddressOnly) {
  const Guard guard({8431, "127.0.0.1", "", ""});
  const auto status = [&](const std::string& host) {
    const auto refusal = guard.refuse({"GET", "/", {}, {{"host", host}}, 0, {}});
    return refusal ? refusal->status : 200;
  };
  EXPECT_EQ(status("127.0.0.1:8431"), 200);
  EXPECT_EQ(status("[::1]:8431"), 200);
  EXPECT_EQ(status("192.168.0.2:8431"), 421);
  EXPECT_EQ(status("127.0.0.1:8431, evil.example"), 421);
  const Guard open({8431, "0.0.0.0", "k", ""});
  Request request{"GET", "/", {{"key", "k"}}, {{"host", "192.168.0.2:8431"}}, 0, {}};
  EXPECT_FALSE(open.refuse(request));
  request.headers["host"] = "evil.example:8431";
  EXPECT_EQ(open.refuse(request)->status, 421);
}

TEST(Router, CutsPathsIntoPiecesAndTrustsNone) {
  Router router;
  router.add("GET", "/api/trips/{id}",
             [](auto&, const Pieces& p) { return Answer::json({{"id", p[0]}}); });
  router.add("POST", "/api/throws",
             [](auto&, auto&) -> Answer { throw std::runtime_error("odd"); });
  const auto status = [&](const char* method, const char* path) {
    return router.answer({method, path, {}, {}, 0, {}}).status;
  };
  EXPECT_EQ(status("GET", "/api/trips/a1"), 200);
  for (const char* path : {"/api/trips/", "/api/trips/..", "/api/trips/a/b", "/api/trips/a b",
                           "/api/trips/a%2f", "/api/trips/.a", "", "/", "//"})
    EXPECT_EQ(status("GET", path), 404) << path;
  EXPECT_EQ(status("GET", ("/api/trips/" + std::string(81, 'a')).c_str()), 404);
  EXPECT_EQ(status("POST", "/api/trips/a1"), 405);
  EXPECT_EQ(status("POST", "/api/throws"), 500);
}

TEST(Message, FaultsAreCutIntoPlaceAndWords) {
  EXPECT_EQ(said({FaultCode::bad_input, "party.size: expected a whole number"}).where,
            "party.size");
  EXPECT_EQ(said({FaultCode::bad_input, "point[2].at: expected a place"}).message,
            "expected a place");
  EXPECT_EQ(said({FaultCode::no_way, "from the hut: nothing leads on"}).where, "");
}

TEST(Uploads, RolesByTheEnding) {
  EXPECT_EQ(role_of("a.osm.pbf"), "features");
  EXPECT_EQ(role_of("A.TIF"), "elevation");
  EXPECT_EQ(role_of("a.gpkg"), "ground");
  EXPECT_EQ(role_of("a.dbf"), "part");
  EXPECT_EQ(role_of("a.vrt"), "unknown");  // it names other files
  EXPECT_EQ(role_of("passwd"), "unknown");
}

TEST(Events, ASlowPageHearsTheLastOfEachThing) {
  Hub hub;
  const auto page = hub.listen();
  for (int i = 0; i < 1000; ++i) hub.tell("job a", std::to_string(i));
  hub.tell("job b", "b");
  EXPECT_EQ(page->next(1s), "999");
  EXPECT_EQ(page->next(1s), "b");
  EXPECT_EQ(page->next(1ms), std::nullopt);
  hub.close();
  EXPECT_TRUE(page->closed());
}

/// Runs until it is stopped, and says so.
Work endless(std::atomic<int>& running) {
  return [&running](tasks::Progress& progress, const std::string&) -> lodeway::Result<Outcome> {
    ++running;
    while (progress.go_on(-1, "running")) std::this_thread::sleep_for(1ms);
    --running;
    return fail(FaultCode::cancelled, "stopped");
  };
}

void until(const std::function<bool()>& so) {
  for (int i = 0; i < 10000 && !so(); ++i) std::this_thread::sleep_for(1ms);
  ASSERT_TRUE(so());
}

TEST(Jobs, AreStoppedQueuedAndAnsweredOnce) {
  Hub hub;
  Jobs jobs(hub);
  std::atomic<int> running = 0, made = 0;
  const auto a = *jobs.start({"ways", "t", "", 1, "q1"}, endless(running));
  const auto b = *jobs.start({"paper", "t", "", 1, "q2"}, endless(running));
  until([&] { return running == 2; });
  const auto waiting = *jobs.start({"rehearsal", "t", "", 1, "q3"}, endless(running));
  EXPECT_EQ(jobs.as_json(waiting)["state"], "waiting");
  EXPECT_EQ(*jobs.start({"ways", "t", "", 1, "q1"}, endless(running)), a);  // the same question
  EXPECT_TRUE(jobs.stop(waiting));
  EXPECT_EQ(jobs.as_json(waiting)["state"], "cancelled");
  const Work quick = [&](tasks::Progress&, const std::string&) -> lodeway::Result<Outcome> {
    return Outcome{std::shared_ptr<const int>(std::make_shared<int>(++made)), "/x", ""};
  };
  const auto newer = *jobs.start({"ways", "t", "", 2, "q4"}, quick);  // takes a's place
  until([&] { return jobs.as_json(newer)["state"] == "done"; });
  EXPECT_EQ(jobs.as_json(a)["state"], "cancelled");
  EXPECT_EQ(*jobs.result<int>(newer), 1);
  EXPECT_EQ(*jobs.answer_to<int>("q4"), 1);
  EXPECT_EQ(*jobs.start({"ways", "t", "", 3, "q4"}, quick), newer);
  EXPECT_EQ(jobs.answer_to<int>("q1"), nullptr);
  EXPECT_FALSE(jobs.stop("none"));
  const auto throws = *jobs.start(
      {"ground", "", "", 0, ""},
      [](auto&, auto&) -> lodeway::Result<Outcome> { throw std::runtime_error("odd"); });
  until([&] { return jobs.as_json(throws)["state"] == "failed"; });
  for (int i = 0; i < 200; ++i) (void)jobs.start({"ground", "", "", 0, ""}, quick);
  EXPECT_LE(jobs.all().size(), 80U);
  jobs.stop(b);
}

TEST(Jobs, AFullQueueSaysWait) {
  Hub hub;
  Jobs jobs(hub);
  std::atomic<int> running = 0;
  lodeway::Result<std::string> started;
  for (int i = 0; i < 100 && started; ++i)
    started = jobs.start({"ground", "", "", 0, ""}, endless(running));
  ASSERT_FALSE(started);
  EXPECT_EQ(started.error().what, "much is being worked out already");
}

TEST(Store, KeepsTripsAndGroundsOnDisk) {
  const support::TemporaryFolder scratch;
  std::string id;
  {
    const auto store = *Store::open(scratch / "a.sqlite");
    const auto trip = store->new_trip({{"document", {{"name", "A"}}}, {"ground_id", nullptr}});
    id = trip.id;
    EXPECT_EQ(trip.revision, 1);
    const auto changed = store->change(
        id, 1, Json::parse(R"([{"path": "/document/name", "value": "B'; DROP TABLE trip; --"}])"));
    ASSERT_TRUE(changed) << changed.error().what;
    store->keep_ground({"g", "Hills", "/x.gpkg", "1", "{}", true});
  }
  const auto store = *Store::open(scratch / "a.sqlite");
  EXPECT_EQ(store->trip(id)->state["document"]["name"], "B'; DROP TABLE trip; --");
  EXPECT_TRUE(store->trip(id)->can_undo);
  ASSERT_EQ(store->grounds().size(), 1U);
  EXPECT_TRUE(store->grounds()[0].ours);
  EXPECT_TRUE(store->drop_trip(id));
  EXPECT_FALSE(store->drop_trip(id));
  EXPECT_FALSE(store->trip(id));
  EXPECT_FALSE(Store::open("/no/such/folder/a.sqlite"));
}

TEST(Store, KeepsABoundedPastOfEachTrip) {
  const support::TemporaryFolder scratch;
  const auto store = *Store::open(scratch / "a.sqlite");
  const auto id = store->new_trip({{"document", Json::object()}, {"ground_id", nullptr}}).id;
  for (int i = 1; i <= 260; ++i) {
    const auto done =
        store->change(id, i, Json{{{"path", "/document/name"}, {"value", std::to_string(i)}}});
    ASSERT_TRUE(done && done->contested.empty()) << i;
  }
  int back = 0;
  while (store->trip(id)->can_undo) {
    ASSERT_TRUE(store->step(id, store->trip(id)->revision, -1));
    ++back;
  }
  EXPECT_EQ(back, 200);
  EXPECT_EQ(store->trip(id)->state["document"]["name"], "60");
}

}  // namespace

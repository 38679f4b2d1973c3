#pragma once
/// A way over a made ground: along a path with forks, on the needle to a hut, to a gate on a wall,
/// along the wall, and to a cairn.
#include <optional>

#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/walkers/walked.hpp"
#include "reckoning/made_ground.hpp"

namespace lodeway::walkers::made {

using mapdata::Kind;

struct Scene {
  walking::Ground ground = reckoning::made::ground();
  walking::Request wish;
  walking::Way way;
  walking::Cover cover;
  std::optional<reckoning::Judge> judge;
  sight::CuePlanes planes;
  World world;
  Card card;

  Scene(walking::Skill skill, mapdata::Visibility air, bool errs = true)
      : wish(wish_of(skill, air, errs)),
        way(draw(ground)),
        cover(ground, wish),
        judge(std::in_place, ground, wish.party, reckoning::forbidden_of(cover), errs ? 0.5 : 0.0),
        planes(planes_of(ground, cover)),
        world(ground, cover, *judge, planes),
        card(card_of(*judge, way)) {
    card.start_min = 540;
    for (auto& leg : card.legs) leg.escape = {{900, 0}, {900, -900}, {0, -600}};
  }
  Scene(const Scene&) = delete;

  [[nodiscard]] WalkRequest request(std::size_t parties) const {
    WalkRequest r;
    r.parties = parties;
    r.at_min = {card.start_min + 45};
    r.manner = manner_of(wish.party.skill);
    return r;
  }
  [[nodiscard]] Walked walk(const WalkRequest& request) const {
    numeric::Serial serial;
    return *walkers::walk(world, card, request, serial);
  }

 private:
  static walking::Request wish_of(walking::Skill skill, mapdata::Visibility air, bool errs) {
    walking::Request r;
    r.party.skill = skill;
    r.party.visibility = air;
    if (!errs) {
      r.party.errors = {1e-9, 1e-9, 60, 1e-9, 1e-9, 1e-9};
      r.party.time_band = 1e-9;
      r.party.chances = surely();
    }
    return r;
  }
  static sight::CuePlanes planes_of(const walking::Ground& g, const walking::Cover& cover) {
    numeric::Serial serial;
    return sight::cue_planes(g, cover, std::nullopt, serial);
  }
  /// Everything is noticed, kept, taken and known; no bearing is set wrong.
  static sight::Changes surely() {
    sight::Changes c;
    for (int of = 0; of < sight::chance_count; ++of) {
      for (int k = 0; k < sight::kind_class_count; ++k)
        c.chances.push_back(
            {static_cast<sight::ChanceOf>(of), static_cast<sight::KindClass>(k), {1, 1, 1, 1}});
    }
    c.settings = {{sight::Setting::search_at_end, 1},
                  {sight::Setting::fork_attention, 1},
                  {sight::Setting::gross_error, 0}};
    return c;
  }
  static walking::Way draw(walking::Ground& g) {
    using namespace reckoning::made;
    g.kinds[Kind::path] = traits(true, true, 15, 0.97);
    add_point(g, Kind::hut, {0, 800});
    add_point(g, Kind::gate, {900, 800});
    add_line(g, Kind::wall, {{900, -900}, {900, 1500}});
    add_point(g, Kind::cairn, {500, 0});
    add_line(g, Kind::path, {{0, -600}, {0, -300}, {60, 0}});
    add_line(g, Kind::path, {{0, -300}, {-300, 0}, {-300, 600}});
    add_line(g, Kind::path, {{30, -150}, {400, -400}});
    walking::Way way;
    way.legs = {along_leg({{0, -600}, {0, -300}, {60, 0}}, Kind::path),
                bearing_leg({60, 0}, {0, 800}), bearing_leg({0, 800}, {900, 800}),
                along_leg({{900, 800}, {900, 300}}, Kind::wall), bearing_leg({900, 300}, {500, 0})};
    return way;
  }
};

}  // namespace lodeway::walkers::made

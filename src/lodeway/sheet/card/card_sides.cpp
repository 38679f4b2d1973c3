#include "lodeway/sheet/card/card_sides.hpp"

#include <algorithm>
#include <numeric>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/draw/verdict_band.hpp"
#include "lodeway/trip/schedule.hpp"

namespace lodeway::sheet {

namespace {

// Of the usual letters of 8.2 points: 7 points can be read while walking (*practice*).
constexpr double readable_see = 0.86;
// Rows: the bearing, its figures and how it is walked; why a leg is to be kept off; help at the
// end.
constexpr double least_row_mm = 18.6, danger_mm = 6, help_mm = 21;
constexpr double large_row_mm = 31.5, large_help_mm = 34;
constexpr double most_band_mm = 60;  // of the verdict: the first side keeps a row of a leg
// A day of more legs is told briefly, so that it can be held in the hand.
constexpr std::size_t most_sides = 4, most_box_rows = 2;
constexpr double brief_row_mm = 17.6;
// Beside how a leg is walked up and down find room where its words shrink to no less than this.
constexpr double two_heights_mm = 25, least_how = 0.8;
constexpr double brief_foot_y = 144;  // there rows go on to where the turn-round rule would stand
constexpr double brief_first_y = 12.4;  // the day's bar heads the first side only

class Parting {
 public:
  Parting(const trip::Plan& plan, const TextMeasure& measure, bool large)
      : plan_(plan), measure_(measure), large_(large), legs_a_side_(large ? 3 : 5) {
    out_.band_h = verdict_band_h(plan, card::right - card::edge, card::fold - card::edge,
                                 most_band_mm, measure);
    out_.ends_place.assign(plan.way.legs.size(), 0);
    const auto reach = trip::legs_that_reach(plan.trip.request, trip::as_judged(plan.way));
    for (const int leg : reach) {
      if (leg >= 0 && leg < static_cast<int>(out_.ends_place.size()))
        out_.ends_place[static_cast<std::size_t>(leg)] = 1;
    }
    Page aside(card::page_w, card::page_h, "", measure);
    for (const auto& leg : plan.way.legs) {
      const auto words = how_to(leg, plan);
      const double wide = aside.width(words.how, card_words(8.6)) + 1.2 +
                          aside.width(words.side, card_words(8.6, true));
      const double room = card::left_end - card::danger_x - two_heights_mm;
      out_.heights_beside.push_back(least_how * wide <= room ? 1 : 0);
    }
    part();
  }
  [[nodiscard]] CardSides take() { return std::move(out_); }

 private:
  /// Rows as high as what is seen on them needs with letters of that size; each leaves the left
  /// half its room.
  [[nodiscard]] std::vector<double> heights_of(std::size_t begin, std::size_t end,
                                               double size) const {
    std::vector<double> out;
    for (auto i = begin; i < end; ++i) {
      const double least =
          (large_ ? large_row_mm : out_.told == Told::briefly ? brief_row(i) : least_row_mm) +
          (leg_dangers(plan_, i).empty() ? 0 : danger_mm);
      const double rim = leg_dangers(plan_, i).empty() ? 0 : card::rim_mm;
      out.push_back(std::max(least, see_height(plan_, i, size, see_style(large_, out_), measure_) + rim));
    }
    return out;
  }
  /// Four small figures above how it is walked ask for more.
  [[nodiscard]] double brief_row(std::size_t i) const {
    const auto& f = plan_.way.legs[i].figures;
    const bool four = f.climb_m >= 5 && f.descent_m >= 5 && out_.heights_beside[i] == 0;
    return four ? brief_row_mm + 2.8 : brief_row_mm;
  }
  /// For rows of these legs.
  [[nodiscard]] double room_for(std::size_t side, std::size_t begin, std::size_t end) const {
    const bool low = out_.told == Told::briefly && !turns_round_on(plan_, begin, end);
    return (low ? brief_foot_y : card::foot_y) - first_leg_y(out_, side) - 1;
  }
  [[nodiscard]] double help_h() const { return large_ ? large_help_mm : help_mm; }
  /// As many legs a side as can be read in the hand; the last side keeps room for help. On as few
  /// sides as that needs the legs are shared out evenly.
  /// On a day that is told briefly a side ends at one of the day's places where that asks for no more.
  void part() {
    out_.sides = parted(legs_a_side_, false);
    if (!large_ && out_.sides.size() > most_sides) {
      out_.told = Told::briefly;
      legs_a_side_ += 2;
      out_.sides = parted(legs_a_side_, false);
      if (out_.sides.size() > most_sides) {  // help stands on the lost card and the home note too
        out_.help_here = false;
        out_.sides = parted(legs_a_side_, false);
      }
    }
    const auto fewest = out_.sides.size();
    for (out_.box_rows = most_box_rows; out_.box_rows > 1; --out_.box_rows) {
      if (share_out(fewest)) return;
    }
    (void)share_out(fewest);
  }

  /// Evenly over so many sides; false where they do not suffice.
  bool share_out(std::size_t fewest) {
    const auto legs = plan_.way.legs.size();
    for (const bool at_places : {true, false}) {
      if (at_places && out_.told == Told::all) continue;
      for (std::size_t most = std::max<std::size_t>(1, legs / fewest); most <= legs_a_side_; ++most) {
        for (const auto sides : {fewest, std::size_t{0}}) {
          auto even = parted(most, at_places, sides);
          if (even.size() > fewest) continue;
          out_.sides = std::move(even);
          return true;
        }
      }
    }
    return false;
  }

  /// `sides`: no side takes more than its share of what is left for so many; 0: as many as find room.
  [[nodiscard]] std::vector<CardSide> parted(std::size_t most, bool at_places,
                                             std::size_t sides = 0) const {
    std::vector<CardSide> out;
    const auto legs = plan_.way.legs.size();
    const auto sum = [](const std::vector<double>& heights) {
      return std::accumulate(heights.begin(), heights.end(), 0.0);
    };
    for (std::size_t begin = 0; out.empty() || !out.back().last;) {
      const auto room_to = [&](std::size_t to) { return room_for(out.size(), begin, to); };
      auto end = std::min(begin + most, legs);
      if (const auto gone = out.size(); gone < sides)
        end = std::min(end, begin + (legs - begin + sides - gone - 1) / (sides - gone));
      while (end > begin + 1 && sum(heights_of(begin, end, readable_see)) > room_to(end)) --end;
      for (auto k = end; at_places && end < legs && k > begin; --k) {
        if (out_.ends_place[k - 1] == 0) continue;
        end = k;
        break;
      }
      // Help goes on below where rows end.
      const double room = room_to(end), with_help =
          out_.help_here ? card::foot_y - first_leg_y(out_, out.size()) - 1 - help_h() : room;
      const bool last = end == legs && sum(heights_of(begin, end, readable_see)) <= with_help;
      double size = 1;
      while (size > readable_see && sum(heights_of(begin, end, size)) > (last ? with_help : room))
        size -= 0.02;
      auto heights = heights_of(begin, end, size);
      // What is left makes the rows higher, none by more than is of use.
      const double left = (last ? with_help : room) - sum(heights);
      for (double& h : heights)
        h += std::clamp(left / static_cast<double>(heights.size()), 0.0, 8.0);
      out.push_back({begin, end, last, std::move(heights)});
      begin = end;
    }
    return out;
  }

  const trip::Plan& plan_;
  const TextMeasure& measure_;
  bool large_;
  std::size_t legs_a_side_;
  CardSides out_;
};

}  // namespace

CardSides parted_card(const trip::Plan& plan, const TextMeasure& measure, bool large) {
  return Parting(plan, measure, large).take();
}

double first_leg_y(const CardSides& parted, std::size_t side) {
  if (side == 0) return card::first_leg_y + parted.band_h + 1.2;
  return parted.told == Told::briefly ? brief_first_y : card::first_leg_y;
}

bool turns_round_on(const trip::Plan& plan, std::size_t begin, std::size_t end) {
  const int turn = plan.schedule.turn_round_leg;
  return plan.schedule.turn_round && turn >= static_cast<int>(begin) &&
         turn < static_cast<int>(end);
}

}  // namespace lodeway::sheet

#include "lodeway/route/front/front.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <queue>
#include <tuple>

#include "lodeway/route/front/front_bounds.hpp"
#include "lodeway/route/front/front_kept.hpp"

namespace lodeway::route {

bool carries_no_more(const Carried& a, const Carried& b) {
  const auto apart = a.drift.net() - b.drift.net();
  if (a.turns > b.turns || std::hypot(apart.east_m, apart.north_m) > 1e-6) return false;
  const auto of_b = b.drift.total();
  const auto more = of_b + -1.0 * a.drift.total();
  const double slack = 1e-9 * of_b.trace();
  return more.xx >= -slack && more.yy >= -slack &&
         (more.xx + slack) * (more.yy + slack) >= more.xy * more.xy;
}

namespace {

constexpr std::uint32_t none = 0xffffffff;
/// What is done and what is to come are summed in another order than the whole: a way that just
/// keeps a limit must not be lost for that.
constexpr double sum_rounding = 1e-12;

bool sound(double x) { return std::isfinite(x) && x >= 0; }
bool sound(const LegCost& c) { return sound(c.seconds) && sound(c.loss) && sound(c.hazard); }
LegCost operator+(const LegCost& a, const LegCost& b) {
  return {a.seconds + b.seconds, a.loss + b.loss, a.hazard + b.hazard};
}

Result<void> check(const FrontProblem& p) {
  const auto bad = [](std::string what) { return fail(FaultCode::bad_input, std::move(what)); };
  const auto is_turn = [&](std::uint32_t place) { return !p.turns.empty() && p.turns[place] != 0; };
  if (!p.turns.empty() && p.turns.size() != p.places) return bad("turns: expected one a place");
  if (p.from >= p.places || p.to >= p.places || is_turn(p.from) || is_turn(p.to)) {
    return bad("start and end: expected fixes among the places");
  }
  if (!sound(p.least_gain) || !sound(p.least_gain_at_fixes))
    return bad("least gain: expected a finite number of at least 0");
  for (const double l : {p.limits.seconds, p.limits.hazard, p.limits.leg_seconds, p.limits.leg_loss,
                         p.limits.leg_hazard}) {
    if (!(l >= 0)) return bad("limits: expected numbers of at least 0");
  }
  for (std::size_t i = 0; i < p.arcs.size(); ++i) {
    const Arc& a = p.arcs[i];
    if (a.from >= p.places || a.to >= p.places || !sound(a.cost)) {
      return bad(fmt::format("arc {}: expected places and finite costs of at least 0", i));
    }
    if (a.asks ? !p.ask : is_turn(a.from) || is_turn(a.to)) {
      return bad(fmt::format("arc {}: expected to be asked for", i));
    }
  }
  return {};
}

struct Label {
  LegCost cost;  ///< from the start
  std::uint32_t place, parent, arc, carried;
};

class Search {
 public:
  explicit Search(const FrontProblem& problem)
      : p_(problem),
        with_hazard_(problem.limits.hazard < no_limit),
        most_seconds_(problem.limits.seconds * (1 + sum_rounding)),
        most_hazard_(problem.limits.hazard * (1 + sum_rounding)),
        out_(arcs_by_place(problem.places, problem.arcs, ArcEnd::from)),
        seconds_(least_to_go(problem, &LegCost::seconds)),
        loss_(least_to_go(problem, &LegCost::loss)),
        hazard_(with_hazard_ ? least_to_go(problem, &LegCost::hazard)
                             : std::vector<double>(problem.places, 0.0)),
        kept_(problem.places, problem.turns, with_hazard_, problem.least_gain_at_fixes) {
    if (p_.ask) known_.assign(p_.arcs.size(), not_asked);
  }

  Result<Front> run() {
    if (hopeful(p_.from, {})) push({{}, p_.from, none, none, none});
    for (std::size_t count = 1; !open_.empty(); ++count) {
      if (count % 1024 == 0 && p_.go_on && !p_.go_on()) {
        return fail(FaultCode::cancelled, "stopped while the ways were searched");
      }
      const std::uint32_t at = open_.top().label;
      open_.pop();
      const Label label = labels_[at];
      const Carried* const carried = label.carried == none ? nullptr : &pool_[label.carried];
      if (!hopeful(label.place, label.cost) || kept_.beats(label.place, label.cost, carried)) {
        continue;
      }
      kept_.keep(label.place, label.cost, carried);
      if (label.place == p_.to) {
        least_loss_ = label.cost.loss;
        arrived_.push_back(at);
        continue;
      }
      if (auto done = expand(at, label); !done) return std::unexpected(done.error());
    }
    return front();
  }

 private:
  struct Open {
    double seconds, loss, hazard;  ///< at least, of the whole way
    std::uint32_t label;
    friend bool operator>(const Open& a, const Open& b) {
      return std::tie(a.seconds, a.loss, a.hazard, a.label) >
             std::tie(b.seconds, b.loss, b.hazard, b.label);
    }
  };
  static constexpr std::uint32_t not_asked = none, refused = none - 1;

  /// Can a way through here be within the limits and surer than all quicker ones?
  [[nodiscard]] bool hopeful(std::uint32_t place, const LegCost& c) const {
    const double gain = least_loss_ - (c.loss + loss_[place]);
    return c.seconds + seconds_[place] <= most_seconds_ && seconds_[place] < no_limit && gain > 0 &&
           gain >= p_.least_gain && c.hazard + hazard_[place] <= most_hazard_;
  }

  void push(const Label& label) {
    open_.push({label.cost.seconds + seconds_[label.place], label.cost.loss + loss_[label.place],
                label.cost.hazard + hazard_[label.place],
                static_cast<std::uint32_t>(labels_.size())});
    labels_.push_back(label);
  }

  Result<void> expand(std::uint32_t at, const Label& label) {
    for (std::uint32_t k = out_.start[label.place]; k < out_.start[label.place + 1]; ++k) {
      const std::uint32_t index = out_.arcs[k];
      const Arc& arc = p_.arcs[index];
      LegCost step = arc.cost, cost = label.cost + step;
      const bool to_turn = kept_.is_turn(arc.to);
      if (!leg_allowed(step, p_.limits) || !hopeful(arc.to, cost) ||
          (!to_turn && kept_.beats(arc.to, cost, nullptr))) {
        continue;
      }
      std::uint32_t carried = none;
      if (arc.asks) {
        auto asked = ask(index, label.carried);
        if (!asked) return std::unexpected(asked.error());
        if (!*asked) continue;
        step = (**asked).cost;
        cost = label.cost + step;
        const Carried* const brought = to_turn ? &*(**asked).carried : nullptr;
        if (!leg_allowed(step, p_.limits) || !hopeful(arc.to, cost) ||
            kept_.beats(arc.to, cost, brought)) {
          continue;
        }
        if (to_turn) {
          carried = static_cast<std::uint32_t>(pool_.size());
          pool_.push_back(*brought);
        }
      }
      if (labels_.size() >= p_.most_labels) {
        return fail(FaultCode::too_large,
                    fmt::format("more than {} part ways to compare: expected fewer places or a "
                                "larger least gain",
                                p_.most_labels));
      }
      push({cost, arc.to, at, index, carried});
    }
    return {};
  }

  /// What the arc really costs; from a fix it is asked for once.
  Result<std::optional<Asked>> ask(std::uint32_t index, std::uint32_t carried) {
    if (carried == none && known_[index] != not_asked) {
      if (known_[index] == refused) return std::optional<Asked>{};
      return std::optional<Asked>{answers_[known_[index]]};
    }
    ++asked_;
    const Arc& arc = p_.arcs[index];
    auto answer = p_.ask(index, carried == none ? nullptr : &pool_[carried]);
    if (answer) {
      const LegCost &real = answer->cost, &least = arc.cost;
      const auto below = [](double x, double bound) { return x < bound * (1 - 1e-9) - 1e-12; };
      if (!sound(real) || below(real.seconds, least.seconds) || below(real.loss, least.loss) ||
          below(real.hazard, least.hazard)) {
        return fail(FaultCode::bad_input,
                    fmt::format("arc {}: expected finite costs not below its bounds", index));
      }
      if (kept_.is_turn(arc.to) && !answer->carried) {
        return fail(FaultCode::bad_input,
                    fmt::format("arc {}: expected what is carried at its end", index));
      }
    }
    if (carried == none) {
      known_[index] = answer ? static_cast<std::uint32_t>(answers_.size()) : refused;
      if (answer) answers_.push_back(*answer);
    }
    return answer;
  }

  [[nodiscard]] Front front() const {
    Front f;
    f.labels = labels_.size();
    f.asked = asked_;
    for (const std::uint32_t end : arrived_) {
      FrontWay way{labels_[end].cost, {}};
      for (std::uint32_t at = end; labels_[at].parent != none; at = labels_[at].parent) {
        way.arcs.push_back(labels_[at].arc);
      }
      std::ranges::reverse(way.arcs);
      // Bounds and sums round apart: a way may come a last digit too late, never a quicker one.
      while (!f.ways.empty() && f.ways.back().cost.seconds >= way.cost.seconds) f.ways.pop_back();
      f.ways.push_back(std::move(way));
    }
    return f;
  }

  const FrontProblem& p_;
  bool with_hazard_;
  double most_seconds_, most_hazard_;
  ArcsByPlace out_;
  std::vector<double> seconds_, loss_, hazard_;  ///< by place: at least still to come
  Kept kept_;
  std::vector<Label> labels_;
  std::vector<Carried> pool_;
  std::priority_queue<Open, std::vector<Open>, std::greater<>> open_;
  std::vector<std::uint32_t> arrived_, known_;  ///< known_ by arc: index into answers_
  std::vector<Asked> answers_;
  std::size_t asked_ = 0;
  double least_loss_ = no_limit;  ///< of the ways found
};

}  // namespace

Result<Front> find_front(const FrontProblem& problem) {
  if (auto fine = check(problem); !fine) return std::unexpected(fine.error());
  return Search(problem).run();
}

Result<Front> find_front_soon(FrontProblem problem, std::size_t exact_labels) {
  constexpr double first_gain = 5e-4, coarser = 4, coarsest = 0.05;  // *practice*
  const std::size_t most = problem.most_labels;
  problem.most_labels = std::min(most, exact_labels);
  for (;;) {
    auto front = find_front(problem);
    if (front || front.error().code != FaultCode::too_large || problem.most_labels == most)
      return front;
    problem.least_gain_at_fixes = std::max(first_gain, coarser * problem.least_gain_at_fixes);
    problem.least_gain = std::max(problem.least_gain, problem.least_gain_at_fixes);
    if (problem.least_gain_at_fixes > coarsest) problem.most_labels = most;
  }
}

}  // namespace lodeway::route

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "lodeway/io/kinds/detail/kind_changes.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/io/toml/detail/parse_toml.hpp"

extern "C" {
extern const unsigned char lodeway_kinds_toml[];
extern const unsigned lodeway_kinds_toml_size;
}

namespace lodeway::io {

using mapdata::Kind;

std::vector<mapdata::KindChange> read_kind_changes(TomlReader& kinds) {
  std::vector<mapdata::KindChange> out;
  for (int k = 0; k < mapdata::kind_count; ++k) {
    mapdata::KindChange change;
    change.kind = static_cast<Kind>(k);
    auto t = kinds.table(mapdata::kind_name(change.kind));
    if (!t) continue;
    change.leads = t->flag("leads");
    change.catches = t->flag("catches");
    change.ticks = t->flag("ticks");
    change.forbids = t->flag("forbids");
    change.speed_factor = t->number("speed", 0.01, 1);
    const auto four = [&](const char* key, double most, auto& target) {
      const auto v = t->numbers(key, mapdata::visibility_count, 0, most);
      if (v) std::ranges::copy(*v, target.emplace().begin());
    };
    four("seen_m", 50'000, change.seen_from_m);
    four("known", 1, change.recognised);
    t->finish();
    out.push_back(change);
  }
  kinds.finish();
  return out;
}

class KindRulesReader {
 public:
  explicit KindRulesReader(KindRules base) : rules_(std::move(base)) {}

  KindRules read(TomlReader file) {
    if (auto kinds = file.table("kind")) {
      for (const auto& change : read_kind_changes(*kinds)) rules_.table_.take(change);
    }
    if (auto attributes = file.table("attributes")) read_attributes(*attributes);
    std::vector<KindRules::Rule> own;
    for (TomlReader& rule : file.tables("map")) own.push_back(read_rule(rule));
    file.finish();
    rules_.rules_.insert(rules_.rules_.begin(), own.begin(), own.end());
    rules_.index();
    return std::move(rules_);
  }

 private:
  void read_attributes(TomlReader& t) {
    const auto put = [&](const char* key, std::vector<std::string>& target) {
      if (auto given = t.texts(key); !given.empty()) target = std::move(given);
    };
    put("name", rules_.name_keys_);
    put("no_name", rules_.no_name_);
    put("height_m", rules_.height_keys_);
    const auto put_conditions = [&](const char* key, std::vector<KindRules::Condition>& target) {
      if (auto given = conditions(t, key); !given.empty()) target = std::move(given);
    };
    put_conditions("tunnel", rules_.tunnel_);
    put_conditions("bridge", rules_.bridge_);
    put_conditions("no_bridge", rules_.no_bridge_);
    t.finish();
  }

  KindRules::Rule read_rule(TomlReader& t) {
    KindRules::Rule out;
    out.when = conditions(t, "when");
    using Is = KindRules::Condition::Is;
    if (out.when.empty() || out.when.front().is == Is::absent ||
        out.when.front().is == Is::none_of) {
      t.refuse("when", "a list of conditions, first one that asks for a key that is there");
    }
    out.ignore = t.flag("ignore").value_or(false);
    out.gives.point = kind(t, "point", Kind::building, Kind::other);
    out.gives.line = kind(t, "line", Kind::path, Kind::aerialway, true);  // a motorway
    out.gives.area = kind(t, "area", Kind::lake, Kind::forbidden);
    out.gives.centre = kind(t, "centre", Kind::building, Kind::other);
    if (const auto side = t.choice("falls", {"left", "right"})) {
      out.gives.falls = *side == 0 ? mapdata::Side::left : mapdata::Side::right;
    }
    if (const auto traffic = t.choice("traffic", {"quiet", "busy", "fast"})) {
      out.gives.traffic = static_cast<mapdata::Traffic>(*traffic + 1);
      if (out.gives.line != Kind::road) t.refuse("traffic", "it beside line = \"road\" only");
    }
    const Meaning& g = out.gives;
    if (out.ignore == (g.point || g.line || g.area || g.centre)) {
      t.refuse("when", "either ignore = true or one of point, line, area, centre");
    }
    t.finish();
    return out;
  }

  /// `or_closed`: what nobody may set foot on is one of them too.
  static std::optional<Kind> kind(TomlReader& t, const char* key, Kind first, Kind last,
                                  bool or_closed = false) {
    const auto name = t.text(key);
    if (!name) return std::nullopt;
    const auto found = mapdata::kind_from_name(*name);
    if (or_closed && found == Kind::forbidden) return found;
    if (!found || *found < first || *found > last) {
      t.refuse(key, fmt::format("a kind from {} to {} (docs/method/kinds.md), got \"{}\"",
                                mapdata::kind_name(first), mapdata::kind_name(last), *name));
    }
    return found;
  }

  static std::vector<KindRules::Condition> conditions(TomlReader& t, const char* key) {
    using Is = KindRules::Condition::Is;
    std::vector<KindRules::Condition> out;
    for (std::string text : t.texts(key)) {
      KindRules::Condition c;
      text = small_letters(text);
      const auto equals = text.find('=');
      if (equals == std::string::npos) {
        c.is = text.starts_with('!') ? Is::absent : Is::there;
        c.key = text.substr(c.is == Is::absent ? 1 : 0);
      } else {
        c.is = equals > 0 && text[equals - 1] == '!' ? Is::none_of : Is::one_of;
        c.key = text.substr(0, c.is == Is::none_of ? equals - 1 : equals);
        for (std::size_t at = equals + 1; at <= text.size();) {
          const auto end = std::min(text.find('|', at), text.size());
          c.values.push_back(text.substr(at, end - at));
          at = end + 1;
        }
      }
      if (c.key.empty() || std::ranges::find(c.values, "") != c.values.end()) {
        t.refuse(key, fmt::format("conditions like \"key=a|b\", got \"{}\"", text));
      }
      out.push_back(std::move(c));
    }
    return out;
  }

  KindRules rules_;
};

namespace {

Result<KindRules> parse(KindRules base, std::string_view text, const std::string& file) {
  try {
    const toml::table table = parse_toml(text, file);
    return KindRulesReader(std::move(base)).read(TomlReader(table, file, ""));
  } catch (const Refusal& refusal) {
    return fail(FaultCode::bad_input, refusal.what);
  }
}

}  // namespace

const KindRules& built_in_rules() {
  static const KindRules rules = [] {
    std::string text(lodeway_kinds_toml_size, '\0');
    std::copy_n(lodeway_kinds_toml, lodeway_kinds_toml_size, text.begin());
    auto read = parse({}, text, "data/kinds.toml");
    assert(read);  // our own file; a test reads it
    return read ? std::move(*read) : KindRules{};
  }();
  return rules;
}

Result<KindRules> read_kind_rules(const std::string& path) {
  constexpr std::uintmax_t most_bytes = 1U << 20U;
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  std::ifstream in(path, std::ios::binary);
  if (error || !in)
    return fail(FaultCode::io_failed, path + ": expected a kinds file, cannot be read");
  if (size > most_bytes) return fail(FaultCode::too_large, path + ": expected at most 1 MiB");
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  return parse(built_in_rules(), text, path);
}

}  // namespace lodeway::io

#include "apps/server/store/edits.hpp"

#include <algorithm>

#include "lodeway/io/json/json_bounds.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::server {

namespace {

constexpr std::size_t most_pieces = 8, most_changes = 1000;
constexpr std::size_t most_keys = io::JsonBounds{}.keys;  // a table keeps its order: quadratic
constexpr std::size_t most_shown = 60;

std::unexpected<Fault> refuse(const std::string& path, const char* expected) {
  return fail(FaultCode::bad_input, "changes: " + units::plain(path, most_shown) + " expected " + expected);
}

/// RFC 6901: pieces after each '/', with ~1 for '/' and ~0 for '~'.
Result<std::vector<std::string>> cut(const std::string& path) {
  std::vector<std::string> out;
  if (!path.starts_with('/')) return refuse(path, "a path that begins with /");
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (path[i] == '/') {
      out.emplace_back();
    } else if (path[i] == '~') {
      const char next = i + 1 < path.size() ? path[i + 1] : '\0';
      if (next != '0' && next != '1') return refuse(path, "~0 or ~1 after ~");
      out.back() += next == '0' ? '~' : '/';
      ++i;
    } else {
      out.back() += path[i];
    }
  }
  const auto& top = out[0];
  if (top != "document" && top != "ground_id" && top != "chosen_way" && top != "sheets" &&
      top != "party_file")
    return refuse(path, "a path below /document, or /ground_id, /chosen_way, /sheets, /party_file");
  if ((top == "document") != (out.size() > 1)) return refuse(path, "another depth");
  if (out.size() > most_pieces) return refuse(path, "a shorter path");
  return out;
}

Result<void> put(Json& state, const std::string& path, const std::vector<std::string>& pieces,
                 const Json& value) {
  Json* at = &state;
  const auto full = [&](const std::string& key) {
    return at->size() >= most_keys && !at->contains(key);
  };
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    if (at->is_array()) return refuse(path, "a list to be changed whole");
    if (!at->is_object()) return refuse(path, "a table on the way");
    if (!at->contains(pieces[i]) || (*at)[pieces[i]].is_null()) {
      if (value.is_null()) return {};
      if (full(pieces[i])) return refuse(path, "fewer keys in one table");
      (*at)[pieces[i]] = Json::object();
    }
    at = &(*at)[pieces[i]];
  }
  if (!at->is_object()) return refuse(path, "a list to be changed whole");
  if (!value.is_null() && full(pieces.back())) return refuse(path, "fewer keys in one table");
  if (value.is_null() && pieces.size() > 1)
    at->erase(pieces.back());
  else
    (*at)[pieces.back()] = value;
  return {};
}

}  // namespace

Result<Changed> apply_changes(const Json& state, const Json& changes) {
  if (!changes.is_array() || changes.empty())
    return fail(FaultCode::bad_input, "changes: expected a list of {path, value}");
  if (changes.size() > most_changes)
    return fail(FaultCode::bad_input, "changes: expected at most 1000 at once");
  Changed out{state, {}};
  for (const auto& one : changes) {
    const auto path = one.is_object() ? text_at(one, "path") : Result<std::string>{""};
    if (!path) return std::unexpected(path.error());
    if (!one.is_object() || !one.contains("value"))
      return fail(FaultCode::bad_input, "changes: expected {path, value}");
    const auto pieces = cut(*path);
    if (!pieces) return std::unexpected(pieces.error());
    if (auto done = put(out.state, *path, *pieces, one["value"]); !done)
      return std::unexpected(done.error());
    out.touched.push_back(*path);
  }
  if (out.state.dump().size() > most_state_bytes)
    return fail(FaultCode::too_large, "changes: a trip of this size cannot be kept");
  return out;
}

bool meet(const std::string& path, const std::string& other) {
  const bool swap = path.size() > other.size();
  const std::string &shorter = swap ? other : path, &longer = swap ? path : other;
  return longer.starts_with(shorter) &&
         (longer.size() == shorter.size() || longer[shorter.size()] == '/');
}

}  // namespace lodeway::server

// A view or a computed column runs what its maker wrote whenever it is read, for ever if he pleased.
#include <cstdio>
#include <cstring>
#include <memory>
#include <string_view>

#include <fmt/format.h>
#include <sqlite3.h>

#include "lodeway/io/gdal/detail/outside.hpp"

namespace lodeway::io {

namespace {

constexpr int most_objects = 1000;
constexpr const char* unreadable = "its tables cannot be read";

using Db = std::unique_ptr<sqlite3, int (*)(sqlite3*)>;
using Statement = std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)>;

bool is_sqlite(const std::string& path) {
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rbe"),
                                                             std::fclose);
  char head[16] = {};
  return file && std::fread(head, 1, sizeof head, file.get()) == sizeof head &&
         std::memcmp(head, "SQLite format 3", sizeof head) == 0;
}

constexpr std::size_t most_shown = 60;
std::string shown(const std::string& text) { return text.substr(0, most_shown); }

Statement prepare(sqlite3* db, const char* text) {
  sqlite3_stmt* out = nullptr;
  sqlite3_prepare_v2(db, text, -1, &out, nullptr);
  return {out, sqlite3_finalize};
}

std::string text_of(sqlite3_stmt* row, int column) {
  const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(row, column));
  return text != nullptr ? text : "";
}

/// SQLite writes these words itself, whatever the maker typed; the column "type" may lie.
bool is_plain(const std::string& sql) {
  for (const char* begin :
       {"CREATE TABLE ", "CREATE INDEX ", "CREATE UNIQUE INDEX ", "CREATE TRIGGER "}) {
    if (sql.starts_with(begin)) return true;
  }
  return sql.empty();  // the index of a key
}
bool is_index_of_places(const std::string& sql) {
  constexpr std::string_view begin = "CREATE VIRTUAL TABLE ", module = " USING rtree(";
  if (!sql.starts_with(begin)) return false;
  auto at = begin.size();
  const bool quoted = sql[at] == '"';
  const auto end = quoted ? sql.find('"', at + 1) : sql.find(' ', at);
  if (end == std::string::npos) return false;
  at = quoted ? end + 1 : end;
  return sql.compare(at, module.size(), module) == 0;
}

}  // namespace

std::string not_plain(const std::string& path) {
  if (!is_sqlite(path)) return {};
  sqlite3* opened = nullptr;
  const int status =
      sqlite3_open_v2(path.c_str(), &opened, SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX, nullptr);
  const Db db(opened, sqlite3_close);
  if (status != SQLITE_OK) return unreadable;
  sqlite3_db_config(opened, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_db_config(opened, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  const auto all = prepare(opened, "SELECT name, sql FROM sqlite_master");
  if (!all) return unreadable;
  int rows = 0, state = SQLITE_ROW;
  for (; (state = sqlite3_step(all.get())) == SQLITE_ROW; ++rows) {
    if (rows == most_objects)
      return fmt::format("expected at most {} tables and indexes, found more", most_objects);
    const auto name = text_of(all.get(), 0), sql = text_of(all.get(), 1);
    if (is_index_of_places(sql)) continue;
    if (!is_plain(sql)) return "expected plain tables, found a view or the like: " + shown(name);
  }
  if (state != SQLITE_DONE) return unreadable;
  const auto computed = prepare(
      opened,
      "SELECT t.name || '.' || c.name FROM pragma_table_list AS t, pragma_table_xinfo(t.name) AS c "
      "WHERE t.schema = 'main' AND c.hidden > 1");
  if (!computed) return unreadable;
  state = sqlite3_step(computed.get());
  if (state == SQLITE_ROW)
    return "expected plain columns, found a computed one: " + shown(text_of(computed.get(), 0));
  if (state != SQLITE_DONE) return unreadable;
  return {};
}

}  // namespace lodeway::io

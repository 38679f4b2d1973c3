// A ground file whose rows and blobs were changed through SQL: the input is a list of changes.
#include <sqlite3.h>

#include <cmath>
#include <cstring>
#include <iterator>
#include <vector>

#include "fuzz/fuzz.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"

using namespace lodeway;

namespace {

struct Cell {
  std::string table, column;
};

/// A small ground without what minds changes to it, its bytes and every column of its tables.
struct Whole {
  std::string bytes;
  std::vector<Cell> cells;
};

void for_each_row(sqlite3* db, const std::string& question, const auto& use) {
  sqlite3_stmt* ask = nullptr;
  sqlite3_prepare_v2(db, question.c_str(), -1, &ask, nullptr);
  while (ask != nullptr && sqlite3_step(ask) == SQLITE_ROW) use(ask);
  sqlite3_finalize(ask);
}

std::string text_at(sqlite3_stmt* row, int column) {
  const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(row, column));
  return text != nullptr ? text : "";
}

walking::Ground small_ground() {
  using mapdata::Kind;
  walking::Ground g;
  g.name = "Low Moss";
  g.grid = earth::MapGrid::from_text("EPSG:32629").value();
  g.elevation = terrain::Elevation({480000, 6060000, 10, 24, 32});
  for (std::size_t k = 0; k < g.elevation.cells().size(); ++k)
    g.elevation.cells()[k] = 300 + static_cast<float>(k % 32);
  g.map.points = {{{Kind::summit, "Top"}, {480100, 6059900}, 331}};
  g.map.lines = {{{Kind::stream, "Gill"},
                  {{480000, 6059800}, {480100, 6059850}, {480300, 6059900}},
                  mapdata::Side::none,
                  true,
                  false}};
  g.map.areas = {{{Kind::wood, "Low Wood"},
                  {{480020, 6059800}, {480200, 6059800}, {480200, 6059900}, {480020, 6059900}},
                  {{{480050, 6059850}, {480050, 6059870}, {480080, 6059870}}}}};
  g.landforms = terrain::Raster<terrain::Landform>({480000, 6060000, 20, 12, 16});
  g.kinds[Kind::path] = {true, true, true, false, 0.9, {30, 20, 8, 3}, {0.95, 0.9, 0.8, 0.4}};
  g.sources = {{"elevation", "a.asc", "Model", "CC BY 4.0", "Somebody", "EPSG:32629", "2019-12-05"}};
  return g;
}

Whole make_whole(const fuzz::File& file) {
  Whole out;
  const auto path = file.beside("whole.gpkg");
  fuzz::must(io::save_ground(small_ground(), path).has_value());
  sqlite3* db = nullptr;
  sqlite3_open(path.c_str(), &db);
  std::vector<std::string> triggers;
  for_each_row(db, "SELECT name FROM sqlite_master WHERE type = 'trigger'",
               [&](sqlite3_stmt* row) { triggers.push_back(text_at(row, 0)); });
  for (const auto& name : triggers)
    sqlite3_exec(db, ("DROP TRIGGER \"" + name + "\"").c_str(), nullptr, nullptr, nullptr);
  std::vector<std::string> tables;
  for_each_row(db, "SELECT name FROM sqlite_master WHERE type = 'table'",
               [&](sqlite3_stmt* row) { tables.push_back(text_at(row, 0)); });
  for (const auto& table : tables) {
    for_each_row(db, "SELECT name FROM pragma_table_info('" + table + "')",
                 [&](sqlite3_stmt* row) { out.cells.push_back({table, text_at(row, 0)}); });
  }
  sqlite3_close(db);
  std::ifstream in(path, std::ios::binary);
  out.bytes.assign(std::istreambuf_iterator<char>(in), {});
  return out;
}

void change(sqlite3* db, const Cell& cell, fuzz::Bytes& bytes) {
  const auto row = bytes.byte();
  const auto how = bytes.byte() % 6;
  const auto quoted = [](const std::string& name) { return "\"" + name + "\""; };
  const std::string where = row == 255 ? ""
                                       : " WHERE rowid = (SELECT rowid FROM " + quoted(cell.table) +
                                             " LIMIT 1 OFFSET " + std::to_string(row % 8) + ")";
  const std::string set = "UPDATE " + quoted(cell.table) + " SET " + quoted(cell.column) + " = ";
  std::string value = "?";
  if (how == 3) value = "NULL";
  if (how == 4) {  // one byte of a blob becomes another
    const auto at = std::to_string(bytes.number(2) % 4096 + 1);
    value = "CAST(substr(" + quoted(cell.column) + ", 1, " + at + " - 1) || ? || substr(" +
            quoted(cell.column) + ", " + at + " + 1) AS BLOB)";
  }
  if (how == 5) value = "substr(" + quoted(cell.column) + ", 1, ?)";
  sqlite3_stmt* todo = nullptr;
  if (sqlite3_prepare_v2(db, (set + value + where).c_str(), -1, &todo, nullptr) != SQLITE_OK) return;
  if (how == 0) sqlite3_bind_int64(todo, 1, static_cast<sqlite3_int64>(bytes.number(8)));
  if (how == 1) {
    const auto bits = bytes.number(8);
    double number = 0;
    static_assert(sizeof number == sizeof bits);
    std::memcpy(&number, &bits, sizeof number);
    sqlite3_bind_double(todo, 1, number);
  }
  std::string text;
  if (how == 2 || how == 4) {
    text = how == 2 ? std::string(bytes.text()) : std::string(1, static_cast<char>(bytes.byte()));
    if (how == 2)
      sqlite3_bind_text(todo, 1, text.data(), static_cast<int>(text.size()), SQLITE_STATIC);
    else
      sqlite3_bind_blob(todo, 1, text.data(), static_cast<int>(text.size()), SQLITE_STATIC);
  }
  if (how == 5) sqlite3_bind_int(todo, 1, static_cast<int>(bytes.number(2)));
  sqlite3_step(todo);
  sqlite3_finalize(todo);
}

}  // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::File file("ground.gpkg");
  static const Whole whole = make_whole(file);
  const auto& path = file.holding(whole.bytes);
  sqlite3* db = nullptr;
  sqlite3_open(path.c_str(), &db);
  sqlite3_exec(db, "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA writable_schema = ON;",
               nullptr, nullptr, nullptr);
  fuzz::Bytes bytes(data, size);
  for (int i = 0; i < 6 && !bytes.empty(); ++i)
    change(db, whole.cells[bytes.number(2) % whole.cells.size()], bytes);
  sqlite3_close(db);
  int looks = 0;
  const auto ground = io::open_ground(path, [&](double, std::string_view) { return ++looks < 20000; });
  if (!ground) {
    fuzz::must_be_a_line(ground.error().what);
  } else {  // what opens can be written again
    fuzz::must(io::save_ground(*ground, file.beside("again.gpkg")).has_value());
  }
  return 0;
}

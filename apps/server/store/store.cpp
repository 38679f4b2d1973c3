#include "apps/server/store/store.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <ctime>
#include <random>
#include <stdexcept>

#include "apps/server/store/edits.hpp"

namespace lodeway::server {

namespace {

constexpr std::int64_t most_steps_back = 200, most_touched_kept = 1000;
constexpr const char* schema =
    "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA trusted_schema=OFF;"
    "CREATE TABLE IF NOT EXISTS trip (id TEXT PRIMARY KEY, revision INTEGER NOT NULL,"
    " at INTEGER NOT NULL, changed_at TEXT NOT NULL);"
    "CREATE TABLE IF NOT EXISTS state (trip TEXT NOT NULL, seq INTEGER NOT NULL,"
    " body TEXT NOT NULL, touched TEXT NOT NULL, PRIMARY KEY (trip, seq));"
    "CREATE TABLE IF NOT EXISTS touched (trip TEXT NOT NULL, revision INTEGER NOT NULL,"
    " paths TEXT NOT NULL, PRIMARY KEY (trip, revision));"
    "CREATE TABLE IF NOT EXISTS ground (id TEXT PRIMARY KEY, name TEXT NOT NULL,"
    " file TEXT NOT NULL, stamp TEXT NOT NULL, summary TEXT NOT NULL, ours INTEGER NOT NULL);";

std::string now_utc() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  gmtime_r(&now, &parts);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text.data();
}

}  // namespace

std::string new_id() {
  static std::mutex mutex;
  static std::random_device device;
  const std::lock_guard lock(mutex);
  std::string out;
  for (int i = 0; i < 16; ++i) out += "0123456789abcdefghijklmnopqrstuv"[device() % 32];
  return out;
}

/// The connection; a statement that fails throws, and the router answers 500.
struct Store::Db {
  sqlite3* handle = nullptr;
  Db() = default;
  Db(const Db&) = delete;
  Db& operator=(const Db&) = delete;
  ~Db() { sqlite3_close(handle); }

  [[noreturn]] void stop() const {
    throw std::runtime_error(std::string("the state folder: ") + sqlite3_errmsg(handle));
  }
  void run(const char* sql) const {
    if (sqlite3_exec(handle, sql, nullptr, nullptr, nullptr) != SQLITE_OK) stop();
  }

  class Statement {
   public:
    Statement(const Db& db, const char* sql) : db_(db) {
      if (sqlite3_prepare_v2(db.handle, sql, -1, &statement_, nullptr) != SQLITE_OK) db.stop();
    }
    ~Statement() { sqlite3_finalize(statement_); }
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;
    Statement& with(const std::string& text) {
      sqlite3_bind_text(statement_, ++bound_, text.data(), static_cast<int>(text.size()),
                        SQLITE_TRANSIENT);
      return *this;
    }
    Statement& with(std::int64_t number) {
      sqlite3_bind_int64(statement_, ++bound_, number);
      return *this;
    }
    bool row() {
      const int status = sqlite3_step(statement_);
      if (status != SQLITE_ROW && status != SQLITE_DONE) db_.stop();
      return status == SQLITE_ROW;
    }
    std::string text(int col) {
      const auto* data = reinterpret_cast<const char*>(sqlite3_column_text(statement_, col));
      return data == nullptr
                 ? std::string()
                 : std::string(data,
                               static_cast<std::size_t>(sqlite3_column_bytes(statement_, col)));
    }
    std::int64_t number(int col) { return sqlite3_column_int64(statement_, col); }

   private:
    const Db& db_;
    sqlite3_stmt* statement_ = nullptr;
    int bound_ = 0;
  };
  Statement ask(const char* sql) const { return {*this, sql}; }

  /// All or nothing.
  class Transaction {
   public:
    explicit Transaction(const Db& db) : db_(db) { db_.run("BEGIN IMMEDIATE"); }
    ~Transaction() {
      if (open_) sqlite3_exec(db_.handle, "ROLLBACK", nullptr, nullptr, nullptr);
    }
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit() {
      db_.run("COMMIT");
      open_ = false;
    }

   private:
    const Db& db_;
    bool open_ = true;
  };
};

Store::Store(std::unique_ptr<Db> db) : db_(std::move(db)) {}
Store::~Store() = default;

Result<std::unique_ptr<Store>> Store::open(const std::string& path) {
  auto db = std::make_unique<Db>();
  if (sqlite3_open(path.c_str(), &db->handle) != SQLITE_OK)
    return fail(FaultCode::io_failed, path + ": expected a file that can be written to");
  sqlite3_busy_timeout(db->handle, 5000);
  try {
    db->run(schema);
  } catch (const std::exception& e) {
    return fail(FaultCode::io_failed, path + ": " + e.what());
  }
  return std::unique_ptr<Store>(new Store(std::move(db)));
}

std::optional<StoredTrip> Store::read(const std::string& id) {
  auto q = db_->ask(
      "SELECT t.revision, s.body, t.changed_at,"
      " EXISTS(SELECT 1 FROM state WHERE trip = t.id AND seq < t.at),"
      " EXISTS(SELECT 1 FROM state WHERE trip = t.id AND seq > t.at)"
      " FROM trip t JOIN state s ON s.trip = t.id AND s.seq = t.at WHERE t.id = ?");
  if (!q.with(id).row()) return std::nullopt;
  return StoredTrip{
      id, q.number(0), Json::parse(q.text(1)), q.number(3) != 0, q.number(4) != 0, q.text(2)};
}

StoredTrip Store::new_trip(const Json& state) {
  const std::lock_guard lock(mutex_);
  const auto id = new_id();
  Db::Transaction whole(*db_);
  db_->ask("INSERT INTO trip VALUES (?, 1, 0, ?)").with(id).with(now_utc()).row();
  db_->ask("INSERT INTO state VALUES (?, 0, ?, '[]')").with(id).with(state.dump()).row();
  whole.commit();
  return *read(id);
}

std::optional<StoredTrip> Store::trip(const std::string& id) {
  const std::lock_guard lock(mutex_);
  return read(id);
}

std::vector<StoredTrip> Store::trips() {
  const std::lock_guard lock(mutex_);
  std::vector<std::string> ids;
  auto q = db_->ask("SELECT id FROM trip ORDER BY changed_at DESC, rowid DESC LIMIT 500");
  while (q.row()) ids.push_back(q.text(0));
  std::vector<StoredTrip> out;
  for (const auto& id : ids) {
    if (auto trip = read(id)) out.push_back(*std::move(trip));
  }
  return out;
}

bool Store::drop_trip(const std::string& id) {
  const std::lock_guard lock(mutex_);
  Db::Transaction whole(*db_);
  const bool there = read(id).has_value();
  for (const char* sql : {"DELETE FROM trip WHERE id = ?", "DELETE FROM state WHERE trip = ?",
                          "DELETE FROM touched WHERE trip = ?"}) {
    db_->ask(sql).with(id).row();
  }
  whole.commit();
  return there;
}

std::vector<std::string> Store::touched_since(const std::string& id, std::int64_t revision) {
  std::vector<std::string> out;
  auto q = db_->ask("SELECT paths FROM touched WHERE trip = ? AND revision > ?");
  q.with(id).with(revision);
  while (q.row()) {
    for (const auto& path : Json::parse(q.text(0))) out.push_back(path.get<std::string>());
  }
  return out;
}

Result<Edited> Store::change(const std::string& id, std::int64_t revision, const Json& changes) {
  const std::lock_guard lock(mutex_);
  Db::Transaction whole(*db_);
  auto now = read(id);
  if (!now) return Edited{};
  auto changed = apply_changes(now->state, changes);
  if (!changed) return std::unexpected(changed.error());
  if (revision > now->revision)
    return fail(FaultCode::bad_input, "revision: expected one that was given out");
  Edited out;
  if (now->revision - revision > most_touched_kept) out.contested = changed->touched;
  for (const auto& theirs : touched_since(id, revision)) {
    for (const auto& mine : changed->touched) {
      if (meet(theirs, mine)) out.contested.push_back(mine);
    }
  }
  if (!out.contested.empty()) {
    std::ranges::sort(out.contested);
    out.contested.erase(std::unique(out.contested.begin(), out.contested.end()),
                        out.contested.end());
    out.trip = std::move(now);
    return out;
  }
  const auto touched = Json(changed->touched).dump();
  db_->ask("DELETE FROM state WHERE trip = ?1 AND seq > (SELECT at FROM trip WHERE id = ?1)")
      .with(id)
      .row();
  db_->ask("UPDATE trip SET revision = revision + 1, at = at + 1, changed_at = ? WHERE id = ?")
      .with(now_utc())
      .with(id)
      .row();
  db_->ask("INSERT INTO state SELECT id, at, ?, ? FROM trip WHERE id = ?")
      .with(changed->state.dump())
      .with(touched)
      .with(id)
      .row();
  db_->ask("INSERT INTO touched SELECT id, revision, ? FROM trip WHERE id = ?")
      .with(touched)
      .with(id)
      .row();
  db_->ask("DELETE FROM state WHERE trip = ?1 AND seq < (SELECT at FROM trip WHERE id = ?1) - ?2")
      .with(id)
      .with(most_steps_back)
      .row();
  db_->ask(
         "DELETE FROM touched WHERE trip = ?1 AND revision <= "
         "(SELECT revision FROM trip WHERE id = ?1) - ?2")
      .with(id)
      .with(most_touched_kept)
      .row();
  whole.commit();
  out.trip = read(id);
  return out;
}

Result<Edited> Store::step(const std::string& id, std::int64_t revision, int by) {
  const std::lock_guard lock(mutex_);
  Db::Transaction whole(*db_);
  auto now = read(id);
  if (!now) return Edited{};
  if (revision != now->revision) return Edited{std::move(now), {""}};
  if (!(by < 0 ? now->can_undo : now->can_redo))
    return fail(FaultCode::bad_input,
                by < 0 ? "there is nothing to undo" : "there is nothing to redo");
  // What a step back touches is what the step itself had touched.
  db_->ask(
         "INSERT INTO touched SELECT t.id, t.revision + 1, s.touched FROM trip t JOIN state s"
         " ON s.trip = t.id AND s.seq = max(t.at, t.at + ?2) WHERE t.id = ?1")
      .with(id)
      .with(by)
      .row();
  db_->ask("UPDATE trip SET revision = revision + 1, at = at + ?, changed_at = ? WHERE id = ?")
      .with(by)
      .with(now_utc())
      .with(id)
      .row();
  whole.commit();
  return Edited{read(id), {}};
}

std::vector<StoredGround> Store::grounds() {
  const std::lock_guard lock(mutex_);
  std::vector<StoredGround> out;
  auto q = db_->ask("SELECT id, name, file, stamp, summary, ours FROM ground ORDER BY rowid");
  while (q.row())
    out.push_back({q.text(0), q.text(1), q.text(2), q.text(3), q.text(4), q.number(5) != 0});
  return out;
}

void Store::keep_ground(const StoredGround& g) {
  const std::lock_guard lock(mutex_);
  db_->ask(
         "INSERT INTO ground VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET"
         " name = excluded.name, file = excluded.file, stamp = excluded.stamp,"
         " summary = excluded.summary, ours = excluded.ours")
      .with(g.id)
      .with(g.name)
      .with(g.file)
      .with(g.stamp)
      .with(g.summary)
      .with(static_cast<std::int64_t>(g.ours))
      .row();
}

bool Store::drop_ground(const std::string& id) {
  const std::lock_guard lock(mutex_);
  db_->ask("DELETE FROM ground WHERE id = ?").with(id).row();
  return sqlite3_changes(db_->handle) > 0;
}

}  // namespace lodeway::server

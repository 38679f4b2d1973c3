#include "lodeway/io/json/json_bounds.hpp"

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace lodeway::io {

namespace {

using Json = nlohmann::json;

/// Counts what the parser meets; false stops it.
class Counter : public nlohmann::json_sax<Json> {
 public:
  explicit Counter(const JsonBounds& bounds) : bounds_(bounds) {}
  [[nodiscard]] const std::string& broken() const { return broken_; }

  bool null() override { return value(); }
  bool boolean(bool) override { return value(); }
  bool number_integer(number_integer_t) override { return value(); }
  bool number_unsigned(number_unsigned_t) override { return value(); }
  bool number_float(number_float_t, const string_t&) override { return value(); }
  bool string(string_t&) override { return value(); }
  bool binary(binary_t&) override { return value(); }
  bool start_object(std::size_t) override { return value() && deeper(); }
  bool start_array(std::size_t) override { return value() && deeper(); }
  bool end_object() override { return higher(); }
  bool end_array() override { return higher(); }
  bool key(string_t& name) override {
    if (name.size() > bounds_.key_bytes) return too_many("bytes in a key", bounds_.key_bytes);
    if (++keys_.back() > bounds_.keys) return too_many("keys in one table", bounds_.keys);
    return true;
  }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return false;
  }

 private:
  bool value() {
    return ++values_ <= bounds_.values || too_many("values in all", bounds_.values);
  }
  bool deeper() {
    keys_.push_back(0);
    return keys_.size() <= bounds_.depth || too_many("tables in tables", bounds_.depth);
  }
  bool higher() {
    keys_.pop_back();
    return true;
  }
  bool too_many(const char* what, std::size_t most) {
    broken_ = "expected JSON with at most " + std::to_string(most) + " " + what;
    return false;
  }
  const JsonBounds& bounds_;
  std::vector<std::size_t> keys_;  ///< of each table that is open
  std::size_t values_ = 0;
  std::string broken_;
};

}  // namespace

Result<void> check_json(std::string_view text, const JsonBounds& bounds) {
  Counter counter(bounds);
  if (Json::sax_parse(text, &counter)) return {};
  if (!counter.broken().empty()) return fail(FaultCode::bad_input, counter.broken());
  return fail(FaultCode::bad_input, "expected a JSON object");
}

}  // namespace lodeway::io

// A user's own kinds.
#include "fuzz/fuzz.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::File file("kinds.toml");
  const auto rules = io::read_kind_rules(
      file.holding({reinterpret_cast<const char*>(data), size}));
  if (!rules) return fuzz::must_be_a_line(rules.error().what), 0;
  const io::Tag tags[] = {{"highway", "path"}, {"name", "x"}, {"ele", "12 ft"}, {"@layer", "paths"}};
  (void)rules->meaning(tags);
  (void)rules->in_tunnel(tags);
  (void)rules->name_tag(tags);
  (void)rules->height_m(tags);
  return 0;
}

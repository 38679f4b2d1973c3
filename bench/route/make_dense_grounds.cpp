// Not a bench: writes the dense grounds as ground files, to time the commands on.
//   make_dense_grounds FOLDER
#include <cstdio>
#include <string>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "route/dense_grounds.hpp"

int main(int count, char** words) {
  using namespace lodeway;
  if (count != 2) {
    std::fputs("make_dense_grounds: expected a folder\n", stderr);
    return 2;
  }
  const std::string folder = words[1];
  const auto save = [&](const walking::Ground& ground, const char* name) {
    const auto saved = io::save_ground(ground, folder + "/" + name);
    if (!saved) std::fprintf(stderr, "%s\n", saved.error().what.c_str());
    return saved.has_value();
  };
  auto fells = fells::make_skarrow_fells();
  fells.kinds = io::built_in_rules().table();
  if (!save(route::with_lines(fells, 8), "eightfold.gpkg")) return 1;
  const auto country = route::dense_country();
  if (!country) {
    std::fputs("make_dense_grounds: the folder of real data is not here\n", stderr);
    return 1;
  }
  return save(*country, "dense.gpkg") && save(route::side_by_side(*country, 2, 2), "fourfold.gpkg")
             ? 0
             : 1;
}

#pragma once
/// Reads the tables of tests/published: comma separated, one line of head, numbers only.
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace lodeway::support {

inline std::vector<std::vector<double>> published_table(const std::string& path_below_published) {
  const std::string path = std::string(LODEWAY_TESTS_DIR) + "/published/" + path_below_published;
  std::ifstream in(path);
  if (!in) throw std::runtime_error(path + ": not found");
  std::vector<std::vector<double>> rows;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::vector<double> row;
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(std::strtod(cell.c_str(), nullptr));
    rows.push_back(row);
  }
  return rows;
}

}  // namespace lodeway::support

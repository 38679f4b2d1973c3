#pragma once
/// A table in plain text: each column as wide as its widest cell, whatever the language.
#include <string>
#include <vector>

namespace lodeway::tasks {

class TextTable {
 public:
  enum class Side : unsigned char { right, left };
  struct Column {
    std::string head;
    Side side = Side::right;
  };
  explicit TextTable(std::vector<Column> columns);

  /// One cell a column.
  void row(std::vector<std::string> cells);

  /// A head and the rows, a line each; two blanks between columns, none at a line's end.
  [[nodiscard]] std::string text() const;

 private:
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace lodeway::tasks

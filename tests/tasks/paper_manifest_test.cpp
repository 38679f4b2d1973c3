// A smaller set written over a larger one: its own old sheets go, and nothing else does.
#include "lodeway/tasks/paper_manifest.hpp"

#include <algorithm>
#include <filesystem>

#include <gtest/gtest.h>

#include "support/support.hpp"

namespace {

using namespace lodeway;
namespace files = std::filesystem;
using Scratch = support::TemporaryFolder;

bool any_has(const std::vector<std::string>& texts, const std::string& part) {
  return std::ranges::any_of(texts, [&](const auto& t) { return t.find(part) != t.npos; });
}

std::string four_sheets(const Scratch& folder) {
  for (const char* name : {"sheet-1.pdf", "sheet-2.pdf", "sheet-3.pdf", "card.pdf"})
    folder.write(name, std::string("old ") + name);
  return tasks::manifest_of(folder.path(),
                            {"sheet-1.pdf", "sheet-2.pdf", "sheet-3.pdf", "card.pdf"})
      .value();
}

TEST(PaperManifest, OldSheetsGoAndIsSaid) {
  const Scratch folder;
  const auto old = four_sheets(folder);
  folder.write("notes.pdf", "mine");
  const auto said = tasks::remove_stale(folder.path(), old, {"sheet-1.pdf", "card.pdf"});
  EXPECT_FALSE(files::exists(folder / "sheet-2.pdf"));
  EXPECT_FALSE(files::exists(folder / "sheet-3.pdf"));
  EXPECT_TRUE(files::exists(folder / "sheet-1.pdf"));
  EXPECT_TRUE(files::exists(folder / "notes.pdf"));
  ASSERT_EQ(said.size(), 2U);
  EXPECT_TRUE(any_has(said, "sheet-3.pdf: of an older set; removed"));
}

TEST(PaperManifest, WhatWasChangedSinceStaysAndIsSaid) {
  const Scratch folder;
  const auto old = four_sheets(folder);
  folder.write("sheet-2.pdf", "old sheet-2.pdf with my notes");
  folder.write("sheet-9.pdf", "of somebody else");
  const auto said = tasks::remove_stale(folder.path(), old, {"sheet-1.pdf", "card.pdf"});
  EXPECT_TRUE(files::exists(folder / "sheet-2.pdf"));
  EXPECT_TRUE(files::exists(folder / "sheet-9.pdf"));
  EXPECT_TRUE(any_has(said, "sheet-2.pdf: of an older set, and changed since"));
  EXPECT_TRUE(any_has(said, "sheet-9.pdf: not of this set; do not carry it"));
}

// A list that names other places is not followed a single line.
TEST(PaperManifest, NothingElseIsEverRemoved) {
  const Scratch folder, other;
  const auto victim = other.write("victim.pdf", "precious");
  const auto old = four_sheets(folder);
  const auto head = old.substr(0, old.find('\n') + 1);
  const auto entry = tasks::manifest_of(other.path(), {"victim.pdf"}).value();
  const auto figures = entry.substr(entry.find('\n') + 1, entry.rfind(' ') - entry.find('\n'));
  for (const std::string& name :
       {"../" + files::path(other.path()).filename().string() + "/victim.pdf", victim,
        std::string(".."), std::string("")}) {
    const auto said = tasks::remove_stale(folder.path(), head + figures + name + "\n", {});
    EXPECT_TRUE(files::exists(victim)) << name;
    EXPECT_TRUE(any_has(said, "no older file was removed")) << name;
  }
  // A link to the file, under a listed name: neither it nor the file.
  files::create_symlink(victim, folder / "link.pdf");
  (void)tasks::remove_stale(folder.path(), head + figures + "link.pdf\n", {});
  EXPECT_TRUE(files::exists(victim));
  EXPECT_TRUE(files::is_symlink(folder / "link.pdf"));
  EXPECT_TRUE(any_has(tasks::remove_stale(folder.path(), "hello\n", {}), "found something else"));
}

TEST(PaperManifest, AFolderWithoutOneHasNothingRemoved) {
  const Scratch folder;
  (void)four_sheets(folder);
  EXPECT_EQ(tasks::read_manifest(folder.path()), "");
  const auto said = tasks::remove_stale(folder.path(), "", {"sheet-1.pdf", "card.pdf"});
  EXPECT_EQ(folder.count(), 4);
  EXPECT_TRUE(any_has(said, "sheet-3.pdf: not of this set"));
}

}  // namespace

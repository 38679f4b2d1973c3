#pragma once
/// What was made and may be looked at again: papers, rehearsals. A folder each, with the answer to
/// the page and its files; the newest stay, also when the server ends.
#include <mutex>
#include <optional>
#include <string>

#include "apps/server/http/message.hpp"

namespace lodeway::server {

class Kept {
 public:
  /// Throws away what a killed server had not finished. `most` stay.
  Kept(std::string folder, std::size_t most);

  /// Where the files of `id` belong; made by whoever writes them.
  [[nodiscard]] std::string folder_of(const std::string& id) const { return folder_ + "/" + id; }
  /// From now on it is there. Faults: io_failed.
  [[nodiscard]] Result<void> keep(const std::string& id, const Json& answer);
  [[nodiscard]] std::optional<Json> answer(const std::string& id) const;
  /// A file of it, by its plain name. Null when there is none.
  [[nodiscard]] std::shared_ptr<const std::string> file(const std::string& id,
                                                        const std::string& name) const;

 private:
  /// Never `but`, which was just made, whatever the clock says.
  void forget_old(const std::string& but);
  std::string folder_;
  std::size_t most_;
  std::mutex mutex_;
};

}  // namespace lodeway::server

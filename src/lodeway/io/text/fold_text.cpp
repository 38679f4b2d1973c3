#include "lodeway/io/text/fold_text.hpp"

#include <memory>
#include <mutex>

#include <unicode/translit.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

namespace lodeway::io {

namespace {

/// Made once; ICU's transliterators may not be used by two threads at a time.
class Folder {
 public:
  Folder() {
    UErrorCode state = U_ZERO_ERROR;
    made_.reset(icu::Transliterator::createInstance(
        "NFKD; [:Nonspacing Mark:] Remove; NFC; Latin-ASCII; Lower", UTRANS_FORWARD, state));
    if (U_FAILURE(state) != 0) made_.reset();
  }
  void fold(icu::UnicodeString& text) {
    const std::lock_guard lock(mutex_);
    if (made_) made_->transliterate(text);
    else text.toLower();
  }

 private:
  std::mutex mutex_;
  std::unique_ptr<icu::Transliterator> made_;
};

}  // namespace

std::string fold_text(std::string_view text) {
  static Folder folder;
  auto wide = icu::UnicodeString::fromUTF8({text.data(), static_cast<int32_t>(text.size())});
  folder.fold(wide);
  icu::UnicodeString out;
  bool parted = true;
  for (int32_t i = 0; i < wide.length(); i = wide.moveIndex32(i, 1)) {
    const UChar32 letter = wide.char32At(i);
    if (letter == 0xFFFD || letter == '\'') continue;
    const bool counts = u_isalnum(letter) != 0;
    if (counts) out.append(letter);
    else if (!parted) out.append(UChar32{' '});
    parted = !counts;
  }
  out.trim();
  std::string answer;
  out.toUTF8String(answer);
  return answer;
}

}  // namespace lodeway::io

#pragma once
/// What long work says of itself, in the reader's language. The English stands where the work is
/// done; its German stands here, for the commands' progress line and the page alike.
/// `tools/help_words` holds that everything said by long work stands here, and nothing else.
#include <span>
#include <string>
#include <string_view>

#include "lodeway/trip/page_words.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::trip {

/// "{0}" stands for a name: of a file, of a place.
[[nodiscard]] std::span<const PageWord> progress_words();

/// `doing` in `language`; as it is where the table has none.
[[nodiscard]] std::string progress_in(units::Language language, std::string_view doing);

}  // namespace lodeway::trip

#pragma once
/// Letters as somebody types them who has no such key: without accents, without capitals.
#include <string>
#include <string_view>

namespace lodeway::io {

/// "Ásbjørnsfjell" -> "asbjornsfjell", "Größe" -> "grosse": decomposed, marks taken off, Latin
/// letters in ASCII (Unicode CLDR's Latin-ASCII), small; what parts words becomes one space. Other
/// scripts keep their letters. UTF-8 in and out; bytes that are none are left out. From any thread.
[[nodiscard]] std::string fold_text(std::string_view text);

}  // namespace lodeway::io

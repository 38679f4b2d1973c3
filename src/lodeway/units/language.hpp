#pragma once
/// The languages that paper and page speak.

namespace lodeway::units {

enum class Language : unsigned char { english, german };

}  // namespace lodeway::units

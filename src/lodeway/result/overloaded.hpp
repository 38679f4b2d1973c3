#pragma once
/// One answer for each of the things that a variant may be.

namespace lodeway::result {

/// `std::visit(overloaded{[](const A& a) { ... }, [](const B& b) { ... }}, variant)`: what none of
/// them takes does not compile.
template <class... One>
struct overloaded : One... {
  using One::operator()...;
};

}  // namespace lodeway::result

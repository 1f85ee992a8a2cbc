// A text whose copies share its bytes: eight bytes a copy, for values that exist a million times.
#pragma once

#include <compare>
#include <concepts>
#include <string>
#include <string_view>
#include <utility>

namespace callfit {

/// Reads like a std::string_view and owns what it shows. Copies may be used on different threads.
/// The text is at most 4 GB long.
class SharedText {
 public:
  SharedText() = default;
  /// Implicit, so that a text can be written where a SharedText is wanted.
  template <std::convertible_to<std::string_view> Text>
  requires(!std::same_as<std::remove_cvref_t<Text>, SharedText>) SharedText(const Text& text)
      : block_(make(text)) {}  // NOLINT(google-explicit-constructor)
  SharedText(const SharedText& other) noexcept : block_(other.block_) { hold(); }
  SharedText(SharedText&& other) noexcept : block_(std::exchange(other.block_, nullptr)) {}
  SharedText& operator=(SharedText other) noexcept {
    std::swap(block_, other.block_);
    return *this;
  }
  ~SharedText() { release(); }

  std::string_view view() const;
  operator std::string_view() const { return view(); }  // NOLINT(google-explicit-constructor)
  std::string str() const { return std::string(view()); }
  bool empty() const { return block_ == nullptr; }

  friend bool operator==(const SharedText& a, const SharedText& b) {
    return a.block_ == b.block_ || a.view() == b.view();
  }
  friend std::strong_ordering operator<=>(const SharedText& a, const SharedText& b) {
    return a.view().compare(b.view()) <=> 0;  // not every library orders views itself
  }
  template <std::convertible_to<std::string_view> Text>
  requires(!std::same_as<std::remove_cvref_t<Text>, SharedText>) friend bool operator==(
      const SharedText& a, const Text& b) {
    return a.view() == std::string_view(b);
  }

 private:
  struct Block;  // how many share the bytes, their number, the bytes

  static Block* make(std::string_view text);
  void hold() noexcept;
  void release() noexcept;

  Block* block_ = nullptr;
};

}  // namespace callfit

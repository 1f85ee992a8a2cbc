#include <callfit/base/shared_text.hpp>

#include <atomic>
#include <cstdint>
#include <cstring>
#include <new>

namespace callfit {

struct SharedText::Block {
  std::atomic<std::uint32_t> owners{1};
  std::uint32_t size = 0;

  char* bytes() { return reinterpret_cast<char*>(this + 1); }
};

SharedText::Block* SharedText::make(std::string_view text) {
  if (text.empty()) return nullptr;
  void* memory = ::operator new(sizeof(Block) + text.size());
  auto* block = new (memory) Block;
  block->size = static_cast<std::uint32_t>(text.size());
  std::memcpy(block->bytes(), text.data(), text.size());
  return block;
}

std::string_view SharedText::view() const {
  return block_ ? std::string_view(block_->bytes(), block_->size) : std::string_view();
}

void SharedText::hold() noexcept {
  if (block_) block_->owners.fetch_add(1, std::memory_order_relaxed);
}

void SharedText::release() noexcept {
  if (!block_ || block_->owners.fetch_sub(1, std::memory_order_acq_rel) > 1) return;
  block_->~Block();
  ::operator delete(block_);
}

}  // namespace callfit

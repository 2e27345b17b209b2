#include "base/large_memory.h"

#include <sys/mman.h>

#include <cstdint>
#include <cstring>

namespace dapple {

namespace {

constexpr uintptr_t kLargePage = uintptr_t{2} << 20U;  // bytes

constexpr std::align_val_t kLine{64};           // bytes
constexpr size_t kOwnPages = size_t{1} << 20U;  // bytes from which memory has pages of its own

}  // namespace

void* allocate_zeros(size_t bytes) {
    if (bytes < kOwnPages) return std::memset(::operator new(bytes, kLine), 0, bytes);
    void* const data =
        ::mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (data == MAP_FAILED) throw std::bad_alloc();
    return data;
}

void free_zeros(void* data, size_t bytes) {
    if (bytes < kOwnPages) {
        ::operator delete(data, kLine);
    } else {
        ::munmap(data, bytes);
    }
}

void use_large_pages(void* data, size_t bytes) {
    const auto first = (reinterpret_cast<uintptr_t>(data) + kLargePage - 1) & ~(kLargePage - 1);
    const auto last = (reinterpret_cast<uintptr_t>(data) + bytes) & ~(kLargePage - 1);
    if (first >= last) return;
#ifdef MADV_HUGEPAGE
    ::madvise(reinterpret_cast<void*>(first), last - first, MADV_HUGEPAGE);
#endif
}

}  // namespace dapple

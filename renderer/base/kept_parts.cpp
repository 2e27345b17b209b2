#include "base/kept_parts.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <mutex>
#include <unordered_map>
#include <vector>

#include "base/random.h"

namespace dapple {

namespace {

thread_local PartShelf* used_shelf = nullptr;

constexpr size_t kHashBlock = size_t{1} << 16U;  // bytes

class ContentHash {
  public:
    void add(std::string_view block) {
        const uint64_t sum = std::hash<std::string_view>()(block);
        hash_[0] = mix_bits(hash_[0], sum);
        hash_[1] = mix_bits(hash_[1] ^ sum, block.size());
        size_ += block.size();
    }
    void add_to(std::string& key) const {
        add_to_key(key, hash_);
        add_to_key(key, size_);
    }

  private:
    std::array<uint64_t, 2> hash_{1, 2};
    uint64_t size_ = 0;
};

}  // namespace

// Parts by their keys, for one thread and its loops.
struct PartShelf {
    struct Part {
        std::shared_ptr<const void> part;
        size_t bytes = 0;
        uint64_t used = 0;  // the number of its last use
    };

    std::mutex mutex;
    size_t most_bytes = 0;
    AtLimit at_limit = AtLimit::kKeepOld;
    size_t bytes = 0;
    uint64_t uses = 0;
    std::unordered_map<std::string, Part> parts;

    void drop_oldest() {
        const auto oldest =
            std::min_element(parts.begin(), parts.end(), [](const auto& a, const auto& b) {
                return a.second.used < b.second.used;
            });
        bytes -= oldest->second.bytes;
        parts.erase(oldest);
    }
};

KeepParts::KeepParts(size_t most_bytes, AtLimit at_limit)
    : shelf_(std::make_shared<PartShelf>()), outer_(used_shelf) {
    shelf_->most_bytes = most_bytes;
    shelf_->at_limit = at_limit;
    used_shelf = shelf_.get();
}

KeepParts::~KeepParts() {
    used_shelf = outer_;
}

PartShelf* shelf_of_this_thread() {
    return used_shelf;
}

UseShelf::UseShelf(PartShelf* shelf) : outer_(used_shelf) {
    used_shelf = shelf;
}

UseShelf::~UseShelf() {
    used_shelf = outer_;
}

bool keeps_parts() {
    return used_shelf != nullptr;
}

std::shared_ptr<const void> find_part(const std::string& key) {
    if (!used_shelf) return nullptr;
    const std::lock_guard lock(used_shelf->mutex);
    const auto found = used_shelf->parts.find(key);
    if (found == used_shelf->parts.end()) return nullptr;
    found->second.used = ++used_shelf->uses;
    return found->second.part;
}

void keep_part(const std::string& key, std::shared_ptr<const void> part, size_t bytes) {
    if (!used_shelf) return;
    PartShelf& all = *used_shelf;
    const std::lock_guard lock(all.mutex);
    const bool drops = all.at_limit == AtLimit::kDropOld && bytes <= all.most_bytes;
    while (drops && all.bytes + bytes > all.most_bytes) all.drop_oldest();
    if (all.bytes + bytes > all.most_bytes) return;
    if (all.parts.emplace(key, PartShelf::Part{std::move(part), bytes, ++all.uses}).second) {
        all.bytes += bytes;
    }
}

void add_content_to_key(std::string& key, std::string_view bytes) {
    ContentHash hash;
    for (size_t at = 0; at < bytes.size(); at += kHashBlock) hash.add(bytes.substr(at, kHashBlock));
    hash.add_to(key);
}

std::string content_key(const std::string& path) {
    if (!keeps_parts()) return "";
    std::ifstream file(path, std::ios::binary);
    if (!file) return "";
    ContentHash hash;
    std::vector<char> block(kHashBlock);
    while (file) {
        file.read(block.data(), static_cast<std::streamsize>(block.size()));
        hash.add({block.data(), static_cast<size_t>(file.gcount())});
    }
    std::string key;
    hash.add_to(key);
    return key;
}

}  // namespace dapple

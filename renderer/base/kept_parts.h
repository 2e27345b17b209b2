// Parts of sets that are made once and used again: pictures, models, glassware, cloth. A night
// reads its sets again for every turn, with most parts the same.
//
// Nothing is kept unless a KeepParts exists. Each thread has its own, which the threads of its
// parallel loops use too: a search on the desk leaves alone what the desk keeps for its frame. A
// part is found by a key that holds all that the part is made of, the bytes of files included, so a
// part of an edited file is another part.
//
// At the limit, a night keeps what it has: it takes its variants in turn, so the oldest part is the
// one that is needed next. The desk drops the parts that were not used for the longest time: while
// something is dragged, each of its forms is needed once.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "base/parallel.h"

namespace dapple {

enum class AtLimit { kKeepOld, kDropOld };

struct PartShelf;

// While it exists, parts of this thread's work are kept, up to this many bytes together.
class KeepParts {
  public:
    explicit KeepParts(size_t most_bytes, AtLimit at_limit = AtLimit::kKeepOld);
    ~KeepParts();
    KeepParts(const KeepParts&) = delete;
    KeepParts& operator=(const KeepParts&) = delete;

  private:
    std::shared_ptr<PartShelf> shelf_;
    PartShelf* outer_;
};

// What this thread keeps parts in; nullptr: nothing.
PartShelf* shelf_of_this_thread();

// While it exists, this thread uses the shelf of another one, for which it works.
class UseShelf {
  public:
    explicit UseShelf(PartShelf* shelf);
    ~UseShelf();
    UseShelf(const UseShelf&) = delete;
    UseShelf& operator=(const UseShelf&) = delete;

  private:
    PartShelf* outer_;
};

bool keeps_parts();
// The part of this key, nullptr if there is none.
std::shared_ptr<const void> find_part(const std::string& key);
void keep_part(const std::string& key, std::shared_ptr<const void> part, size_t bytes);

// The bytes of a number or a plain struct without gaps, for a key.
template <class T>
void add_to_key(std::string& key, const T& value) {
    key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

// The same for many bytes: some that are different for different ones.
void add_content_to_key(std::string& key, std::string_view bytes);

// What a file holds, for a key: some bytes that are different for different contents. Empty if
// nothing is kept, or if the file cannot be read.
std::string content_key(const std::string& path);

// The kept part, or one that is made now. A key belongs to one type: it begins with a word for it.
template <class T>
std::shared_ptr<const T> kept_or_made(const std::string& key,
                                      const std::function<T()>& make,
                                      const std::function<size_t(const T&)>& bytes_of) {
    if (auto found = find_part(key)) return std::static_pointer_cast<const T>(found);
    stop_if_asked();
    auto made = std::make_shared<const T>(make());
    keep_part(key, made, bytes_of(*made));
    return made;
}

}  // namespace dapple

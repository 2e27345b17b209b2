// Where a key of a table is, what messages call it, and all keys that a table may have.
#include <algorithm>

#include "set/tables/table_reader.h"

namespace dapple {

bool TableReader::is_in_kit(const toml::source_region& source) const {
    return kit_ && source.path && *source.path == kit_->file;
}

Place TableReader::place_of(const toml::source_region& source) const {
    if (is_in_kit(source)) return kit_->named_at;
    Place place = place_;
    if (source.path) place.file = *source.path;
    place.line = static_cast<int>(source.begin.line);
    place.column = static_cast<int>(source.begin.column);
    return place;
}

Place TableReader::place_of_key(const std::string& key) const {
    const toml::table& table = holder(key);
    const auto found = table.find(key);
    return found == table.end() ? place_ : place_of(found->first.source());
}

void TableReader::start_from(const toml::table& base,
                             std::vector<std::string> hidden,
                             KitOrigin kit) {
    base_ = &base;
    hidden_ = std::move(hidden);
    kit_ = std::move(kit);
}

const toml::table& TableReader::holder(const std::string& key) const {
    const bool own = base_ == nullptr || table_.contains(key) ||
                     std::find(hidden_.begin(), hidden_.end(), key) != hidden_.end();
    return own ? table_ : *base_;
}

std::string TableReader::words_for_kit(const std::string& key) const {
    const toml::table& table = holder(key);
    const auto found = table.find(key);
    if (found == table.end() || !is_in_kit(found->first.source())) return "";
    const auto& at = found->first.source().begin;
    return " (kit \"" + kit_->name + "\", " +
           to_string(Place{kit_->file, static_cast<int>(at.line), static_cast<int>(at.column)}) +
           ")";
}

std::string TableReader::plain_name_of(const std::string& key) const {
    return label_.empty() ? key : label_ + ": " + key;
}

std::string TableReader::name_of(const std::string& key) const {
    return plain_name_of(key) + words_for_kit(key);
}

void TableReader::list_inner(const std::string& key, const ReadKeys& read) {
    static const toml::table empty;
    Problems none;
    TableReader inner(empty, {}, "", none);
    inner.is_collecting_ = true;
    read(inner);
    for (const std::string& word : inner.known_) inner_.push_back(key + "." + word);
    for (const std::string& word : inner.inner_) inner_.push_back(key + "." + word);
}

std::vector<std::string> TableReader::all_keys() const {
    std::vector<std::string> keys = known_;
    keys.insert(keys.end(), inner_.begin(), inner_.end());
    return keys;
}

}  // namespace dapple

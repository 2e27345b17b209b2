// One TOML table, read key by key.
//
// The keys that a table may have are written once, in its read_* function. read_keys() calls that
// function twice: the first call only collects the names of the keys, so that all other keys of the
// table are reported, each with the nearest name; the second call reads the values. A field whose
// key is misspelt counts as written, so that it is not reported as missing too.
#pragma once

#include <toml++/toml.h>

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/problems.h"
#include "set/set_description.h"

namespace dapple {

// Keys of a kit entry that a set file does not have.
inline constexpr std::array<const char*, 2> kKitKeys{"about", "count"};

// The kit entry that a table of the set file starts from.
struct KitOrigin {
    Place named_at;    // in the set file
    std::string name;  // of the entry
    std::string file;
};

class TableReader {
  public:
    using ReadKeys = std::function<void(TableReader&)>;

    // Messages name the table by `label`: "camera", `fixture "net"`.
    TableReader(const toml::table& table, Place place, std::string label, Problems& problems);

    // Keys that the table lacks are read from `base`, except those in `hidden`. Messages about them
    // have the place where the set names the kit entry, and name the entry second.
    void start_from(const toml::table& base, std::vector<std::string> hidden, KitOrigin kit);

    // Reports unknown keys, then reads all known ones. Call it once.
    void read_keys(const ReadKeys& read);

    void read(Field<std::string>& field, const std::string& key);
    void read(Field<bool>& field, const std::string& key);
    // Numbers may be texts with a unit; see read_number.h.
    void read(Field<double>& field, const std::string& key);
    void read(Field<int64_t>& field, const std::string& key);
    template <size_t N>
    void read(Field<std::array<double, N>>& field, const std::string& key);
    template <size_t N>
    void read(Field<std::array<int64_t, N>>& field, const std::string& key);
    // A list of any number of pairs.
    void read(Field<std::vector<Pair>>& field, const std::string& key);
    // A number or a word; the field of the other is left empty.
    void read_number_or_word(Field<double>& number,
                             Field<std::string>& word,
                             const std::string& key);
    // [x, y, z], or the name of a thing, which is resolved later.
    void read_point(PointField& field, const std::string& key);
    // A colour: three numbers, or one number for all three.
    void read_colour(Field<Triple>& field, const std::string& key);
    // A colour, or the name of a colour.
    void read_colour_or_word(Field<Triple>& colour,
                             Field<std::string>& word,
                             const std::string& key);
    // A table inside this one: gel = { … }.
    void read_table(TableDescription& description, const std::string& key, const ReadKeys& read);

    // The same, or a word; then the table is not given.
    void read_table_or_word(TableDescription& description,
                            Field<std::string>& word,
                            const std::string& key,
                            const ReadKeys& read);

    // The tables under `key`, written as [[key]]; none if the key is missing. `read` is how one of
    // them is read; it is called only to list its keys.
    std::vector<const toml::table*> tables(const std::string& key, const ReadKeys& read);

    // The keys that read_keys() found allowed, with those of inner tables: "gel", "gel.stops".
    std::vector<std::string> all_keys() const;

  private:
    // Returns the node under `key`, or nullptr, and fills in the field except for its value.
    template <typename T>
    const toml::node* find(Field<T>& field, const std::string& key);
    // Adds `key` to the known ones and returns its node, or nullptr.
    const toml::node* look_up(const std::string& key);
    // The node under `key` in the table or its base; nullptr while names are collected.
    const toml::node* node_of(const std::string& key) const;
    const toml::table& holder(const std::string& key) const;  // the table or its base
    void report_unknown(const toml::table& table);
    void list_inner(const std::string& key, const ReadKeys& read);
    bool number(const toml::node& node, const std::string& key, double& value);
    bool whole_number(const toml::node& node, const std::string& key, int64_t& value);
    const toml::array* array(const toml::node& node, const std::string& key, size_t length);
    void wrong_type(const toml::node& node, const std::string& key, const std::string& allowed);

    Place place_of(const toml::source_region& source) const;
    Place place_of_key(const std::string& key) const;
    bool is_in_kit(const toml::source_region& source) const;
    std::string plain_name_of(const std::string& key) const;
    std::string name_of(const std::string& key) const;  // with the kit entry, if it is from one
    std::string words_for_kit(const std::string& key) const;  // " (kit …)"; "": not from the kit

    const toml::table& table_;
    const toml::table* base_ = nullptr;
    std::vector<std::string> hidden_;  // keys that are not read from the base
    std::optional<KitOrigin> kit_;     // of the base, or of the whole table
    Place place_;
    std::string label_;
    Problems& problems_;
    bool is_collecting_ = false;  // the names of the keys, instead of reading them
    std::vector<std::string> known_;
    std::vector<std::string> inner_;     // keys of inner tables, after a dot
    std::vector<std::string> misspelt_;  // known keys that are the nearest to an unknown one
};

}  // namespace dapple

// One TOML table, read key by key.
//
// It remembers which keys were asked for, so that finish() can report the rest as unknown and name
// the nearest of the known ones: the vocabulary is written once, in the read_* functions. A field
// whose key is only misspelt counts as written, so that it is not called missing as well.
#pragma once

#include <toml++/toml.h>

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "base/problems.h"
#include "set/set_description.h"

namespace dapple {

class TableReader {
  public:
    // `label` names the table in messages: "camera", `fixture "net"`.
    TableReader(const toml::table& table, Place place, std::string label, Problems& problems);

    // Keys that the table has not are read from another one, those named here apart. Its messages
    // name its own file.
    void start_from(const toml::table& base, std::vector<std::string> hidden);

    void read(Field<std::string>& field, const std::string& key);
    void read(Field<bool>& field, const std::string& key);
    void read(Field<double>& field, const std::string& key);  // whole numbers are fine
    void read(Field<int64_t>& field, const std::string& key);
    template <size_t N>
    void read(Field<std::array<double, N>>& field, const std::string& key);
    template <size_t N>
    void read(Field<std::array<int64_t, N>>& field, const std::string& key);
    // A number, or a word of a few: one of the two is given.
    void read_number_or_word(Field<double>& number,
                             Field<std::string>& word,
                             const std::string& key);
    // A colour: three numbers, or one for all three.
    void read_colour(Field<Triple>& field, const std::string& key);
    // A colour, or a word that names one.
    void read_colour_or_word(Field<Triple>& colour,
                             Field<std::string>& word,
                             const std::string& key);
    // A table inside this one: gel = { … }.
    void read_table(TableDescription& description,
                    const std::string& key,
                    const std::function<void(TableReader&)>& read_body);

    // The tables under `key`, written as [[key]]; none where the key is missing.
    std::vector<const toml::table*> tables(const std::string& key);

    // Reports the keys that nobody asked for. Call it last, while the fields are where they were.
    void finish();

    Place place() const { return place_; }
    const std::string& label() const { return label_; }

  private:
    // The node under `key`, or nullptr; fills in all of the field but its value.
    template <typename T>
    const toml::node* find(Field<T>& field, const std::string& key);
    const toml::node* look_up(const std::string& key, bool* written = nullptr);
    const toml::table& holder(const std::string& key) const;  // of the key: the table or its base
    void report_unknown(const toml::table& table);
    bool number(const toml::node& node, const std::string& key, double& value);
    bool whole_number(const toml::node& node, const std::string& key, int64_t& value);
    const toml::array* array(const toml::node& node, const std::string& key, size_t length);
    void wrong_type(const toml::node& node, const std::string& key, const std::string& wanted);

    Place place_of(const toml::source_region& source) const;
    Place place_of_key(const std::string& key) const;
    std::string name_of(const std::string& key) const;

    const toml::table& table_;
    const toml::table* base_ = nullptr;
    std::vector<std::string> hidden_;  // keys that the base does not give
    Place place_;
    std::string label_;
    Problems& problems_;
    std::vector<std::string> known_;
    std::vector<bool*> written_;  // of the field of each known key; nullptr for tables
};

// What messages call a value: "a text", "a whole number", "a table".
std::string type_in_words(const toml::node& node);

}  // namespace dapple

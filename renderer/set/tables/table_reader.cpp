#include "set/tables/table_reader.h"

#include <algorithm>
#include <sstream>

#include "base/other_words.h"
#include "base/written_size.h"
#include "set/tables/read_number.h"

namespace dapple {

namespace {

bool contains(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// Whether the numbers of the key are the sides of something.
bool is_size(const std::string& key) {
    return key == "size_m" || key == "panel_m";
}

std::string no_size(const std::string& text, size_t sides) {
    return "is \"" + text + "\", which is not " + std::to_string(sides) + " lengths; write " +
           (sides == 2 ? "[0.9, 0.6] or \"90 x 60 cm\"" : "[8, 12, 4] or \"8 x 12 x 4 m\"");
}

// ", written [960, 640]" of a text with so many plain numbers, such as "960 x 640"; else "".
std::string written_as_list(const toml::node& node, size_t length) {
    const auto numbers = size_in_words(node.value_or(std::string()), length);
    if (!node.is_string() || !numbers) return "";
    std::string list;
    for (const double number : *numbers) {
        std::ostringstream text;
        text << number;
        list += (list.empty() ? "" : ", ") + text.str();
    }
    return ", written [" + list + "]";
}

}  // namespace

TableReader::TableReader(const toml::table& table,
                         Place place,
                         std::string label,
                         Problems& problems)
    : table_(table), place_(std::move(place)), label_(std::move(label)), problems_(problems) {}

const toml::node* TableReader::node_of(const std::string& key) const {
    return is_collecting_ ? nullptr : holder(key).get(key);
}

const toml::node* TableReader::look_up(const std::string& key) {
    if (!contains(known_, key)) known_.push_back(key);
    return node_of(key);
}

template <typename T>
const toml::node* TableReader::find(Field<T>& field, const std::string& key) {
    field.key = name_of(key);
    field.place = place_of_key(key);
    if (!words_for_kit(key).empty()) field.kit_file = kit_->file;
    const toml::node* node = look_up(key);
    field.written = node != nullptr || contains(misspelt_, key);
    return node;
}

void TableReader::wrong_type(const toml::node& node,
                             const std::string& key,
                             const std::string& allowed) {
    problems_.add(place_of(node.source()),
                  name_of(key),
                  "is " + type_in_words(node) + "; must be " + allowed);
}

bool TableReader::number(const toml::node& node, const std::string& key, double& value) {
    const ReadNumber number = read_number(node, key);
    if (!number.value) problems_.add(place_of(node.source()), name_of(key), number.problem);
    value = number.value.value_or(0);
    return number.value.has_value();
}

bool TableReader::whole_number(const toml::node& node, const std::string& key, int64_t& value) {
    if (!node.is_integer()) {
        wrong_type(node, key, "a whole number");
        return false;
    }
    value = *node.value<int64_t>();
    return true;
}

const toml::array* TableReader::array(const toml::node& node,
                                      const std::string& key,
                                      size_t length) {
    const toml::array* array = node.as_array();
    const std::string allowed = "a list of " + std::to_string(length) + " numbers";
    if (array == nullptr) {
        wrong_type(node, key, allowed + written_as_list(node, length));
        return nullptr;
    }
    if (array->size() == length) return array;
    // [2,2, 0,5, 1] has decimals with commas.
    const bool may_be_commas = array->size() > length && array->size() <= 2 * length;
    problems_.add(place_of(node.source()),
                  name_of(key),
                  "has " + std::to_string(array->size()) + " values; must be " + allowed +
                      (may_be_commas ? "; decimals have a point, such as 1.5, and a comma parts "
                                       "two numbers"
                                     : ""));
    return nullptr;
}

void TableReader::read(Field<std::string>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    if (node == nullptr) return;
    if (!node->is_string()) return wrong_type(*node, key, "a text in quotes");
    field.value = *node->value<std::string>();
    field.given = true;
}

void TableReader::read(Field<bool>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    if (node == nullptr) return;
    if (!node->is_boolean()) return wrong_type(*node, key, "true or false");
    field.value = *node->value<bool>();
    field.given = true;
}

void TableReader::read(Field<double>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    if (node != nullptr) field.given = number(*node, key, field.value);
}

void TableReader::read(Field<int64_t>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    if (node != nullptr) field.given = whole_number(*node, key, field.value);
}

template <size_t N>
void TableReader::read(Field<std::array<double, N>>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    if (node != nullptr && node->is_string() && is_size(key)) {
        const std::string text = *node->value<std::string>();
        const auto size = size_in_words(text, N);
        if (size) std::copy_n(size->begin(), N, field.value.begin());
        if (!size) problems_.add(place_of(node->source()), name_of(key), no_size(text, N));
        field.given = size.has_value();
        return;
    }
    const toml::array* list = node == nullptr ? nullptr : array(*node, key, N);
    if (list == nullptr) return;
    field.given = true;
    for (size_t i = 0; i < N; ++i) field.given &= number((*list)[i], key, field.value[i]);
}

template <size_t N>
void TableReader::read(Field<std::array<int64_t, N>>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    const toml::array* list = node == nullptr ? nullptr : array(*node, key, N);
    if (list == nullptr) return;
    field.given = true;
    for (size_t i = 0; i < N; ++i) field.given &= whole_number((*list)[i], key, field.value[i]);
}

void TableReader::read(Field<std::vector<Pair>>& field, const std::string& key) {
    const toml::node* node = find(field, key);
    if (node == nullptr) return;
    const toml::array* list = node->as_array();
    if (list == nullptr) return wrong_type(*node, key, "a list of pairs: [[x, z], ...]");
    field.given = true;
    for (const toml::node& item : *list) {
        Pair pair{};
        const toml::array* numbers = array(item, key, pair.size());
        field.given &= numbers != nullptr;
        for (size_t i = 0; numbers != nullptr && i < pair.size(); ++i) {
            field.given &= number((*numbers)[i], key, pair[i]);
        }
        field.value.push_back(pair);
    }
}

template void TableReader::read(Field<Pair>&, const std::string&);
template void TableReader::read(Field<Triple>&, const std::string&);
template void TableReader::read(Field<Quad>&, const std::string&);
template void TableReader::read(Field<std::array<int64_t, 2>>&, const std::string&);
template void TableReader::read(Field<std::array<int64_t, 4>>&, const std::string&);

void TableReader::read_number_or_word(Field<double>& number,
                                      Field<std::string>& word,
                                      const std::string& key) {
    const toml::node* node = node_of(key);
    if (node != nullptr && !node->is_number() && !node->is_string()) {
        find(word, key);
        return wrong_type(*node, key, "a number or a text in quotes");
    }
    if (node != nullptr && read_number(*node, key).value) return read(number, key);
    read(word, key);
}

void TableReader::read_point(PointField& field, const std::string& key) {
    const toml::node* node = node_of(key);
    if (node != nullptr && !node->is_string() && !node->is_array()) {
        find(field, key);
        return wrong_type(*node, key, "a list of 3 numbers or the name of a thing");
    }
    if (node == nullptr || !node->is_string()) return read(field, key);
    find(field, key);
    field.thing = *node->value<std::string>();
}

void TableReader::read_colour(Field<Triple>& field, const std::string& key) {
    const toml::node* node = node_of(key);
    if (node != nullptr && node->is_array()) return read(field, key);
    find(field, key);
    if (node == nullptr) return;
    if (!node->is_number() && !node->is_string()) {
        return wrong_type(*node, key, "a number or a list of 3 numbers");
    }
    double value = 0;
    field.given = number(*node, key, value);
    field.value = {value, value, value};
}

void TableReader::read_colour_or_word(Field<Triple>& colour,
                                      Field<std::string>& word,
                                      const std::string& key) {
    const toml::node* node = node_of(key);
    const bool is_word = node != nullptr && node->is_string() && !read_number(*node, key).value;
    if (is_word) return read(word, key);
    read_colour(colour, key);
}

void TableReader::read_table(TableDescription& description,
                             const std::string& key,
                             const ReadKeys& read) {
    const toml::node* node = look_up(key);
    if (is_collecting_) return list_inner(key, read);
    description.label = name_of(key);
    // The place of [key] is its bracket, the place of key = { … } its first letter.
    const bool has_header = node != nullptr && node->is_table() && !node->as_table()->is_inline();
    description.place = has_header ? place_of(node->source()) : place_of_key(key);
    static const toml::table empty;
    const toml::table* table = node == nullptr ? &empty : node->as_table();
    if (table == nullptr) {
        wrong_type(*node, key, "a table: " + key + " = { ... }");
        table = &empty;
    }
    description.given = table != &empty;
    TableReader reader(*table, description.place, plain_name_of(key), problems_);
    reader.kit_ = kit_;
    reader.read_keys(read);
}

void TableReader::read_table_or_word(TableDescription& description,
                                     Field<std::string>& word,
                                     const std::string& key,
                                     const ReadKeys& read_inner) {
    const toml::node* node = node_of(key);
    if (node != nullptr && node->is_string()) return read(word, key);
    read_table(description, key, read_inner);
}

std::vector<const toml::table*> TableReader::tables(const std::string& key, const ReadKeys& read) {
    const toml::node* node = look_up(key);
    std::vector<const toml::table*> tables;
    if (is_collecting_) list_inner(key, read);
    if (node == nullptr) return tables;
    const toml::array* list = node->as_array();
    if (list == nullptr) {
        wrong_type(*node, key, "a list of tables: write [[" + key + "]]");
        return tables;
    }
    for (const toml::node& item : *list) {
        if (item.is_table()) {
            tables.push_back(item.as_table());
        } else {
            wrong_type(item, key, "a table");
        }
    }
    return tables;
}

void TableReader::read_keys(const ReadKeys& read) {
    is_collecting_ = true;
    read(*this);
    is_collecting_ = false;
    report_unknown(table_);
    if (base_ != nullptr) {
        for (const char* key : kKitKeys) known_.emplace_back(key);
        report_unknown(*base_);
    }
    read(*this);
}

void TableReader::report_unknown(const toml::table& table) {
    for (const auto& [key, node] : table) {
        const std::string word(key.str());
        if (contains(known_, word)) continue;
        const std::string nearest = nearest_word(word, known_);
        std::string message = "unknown key";
        if (!nearest.empty()) {
            message += "; did you mean " + nearest + "?";
            const OtherWord* other = find_other_word(word, known_);
            if (other != nullptr && other->ours == nearest && !other->hint.empty()) {
                message += " (" + std::string(other->hint) + ")";
            }
            misspelt_.push_back(nearest);
        }
        problems_.add(place_of(key.source()), name_of(word), message);
    }
}

}  // namespace dapple

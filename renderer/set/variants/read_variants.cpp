#include "set/variants/read_variants.h"

#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "set/tables/read_number.h"
#include "set/text_edits.h"
#include "set/toml_text.h"
#include "set/variants/measure_words.h"
#include "set/variants/read_limits.h"

namespace dapple {

namespace {

constexpr int64_t kMostVariants = 10000;
const std::vector<std::string> kTopKeys = {
    "set", "name", "caption", "choose", "samples", "vary", "swap", "rank", "limits"};
const std::vector<std::string> kRangeKeys = {"from", "to", "steps"};
const std::vector<std::string> kWishKeys = {"want", "weight"};

class VariantsReader {
  public:
    VariantsReader(const std::string& path, Problems& problems)
        : path_(path), problems_(problems) {}

    VariantsFile read(const toml::table& root) {
        VariantsFile file;
        file.path = path_;
        report_unknown(root, kTopKeys, "");
        read_set_path(root, file);
        read_template(root, "name", file.name_template, file.name_place);
        read_template(root, "caption", file.caption_template, file.caption_place);
        read_choose(root, file);
        read_vary(root, file);
        read_swaps(root, file);
        read_rank(root, file);
        file.limits = read_limits(root, path_, problems_);
        // The parser sorts keys by name; the knobs are in the order of the file.
        const auto place_of_knob = [](const Knob& knob) {
            const Place& place = knob.varied.front().place;
            return std::pair(place.line, place.column);
        };
        std::sort(file.knobs.begin(), file.knobs.end(), [&](const Knob& a, const Knob& b) {
            return place_of_knob(a) < place_of_knob(b);
        });
        if (file.knobs.empty()) {
            problems_.add({path_}, "vary", "nothing varies; give [vary] or [[swap]] a key");
        }
        return file;
    }

  private:
    Place place_of(const toml::node& node) const {
        const auto& at = node.source().begin;
        return {path_, static_cast<int>(at.line), static_cast<int>(at.column)};
    }
    void report(const toml::node& node, const std::string& key, const std::string& message) {
        problems_.add(place_of(node), key, message);
    }

    void report_unknown(const toml::table& table,
                        const std::vector<std::string>& known,
                        const std::string& label) {
        for (const auto& [key, node] : table) {
            const std::string name(key.str());
            if (std::find(known.begin(), known.end(), name) != known.end()) continue;
            const std::string nearest = nearest_word(name, known);
            report(node,
                   label + name,
                   "unknown key" + (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
        }
    }

    void read_set_path(const toml::table& root, VariantsFile& file) {
        const toml::node* node = root.get("set");
        if (!node || !node->is_string()) {
            problems_.add(
                node ? place_of(*node) : Place{path_}, "set", "must be the path of a set file");
            return;
        }
        file.set_place = place_of(*node);
        const std::filesystem::path folder = std::filesystem::path(path_).parent_path();
        file.set_path = (folder / *node->value<std::string>()).string();
    }

    void read_template(const toml::table& root,
                       const std::string& key,
                       std::string& text,
                       Place& place) {
        const toml::node* node = root.get(key);
        if (!node) return;
        if (!node->is_string()) return report(*node, key, "must be text");
        text = *node->value<std::string>();
        place = place_of(*node);
        if (text.empty()) report(*node, key, "is empty");
    }

    void read_choose(const toml::table& root, VariantsFile& file) {
        const toml::node* choose = root.get("choose");
        const toml::node* samples = root.get("samples");
        if (choose) {
            const auto word = choose->value<std::string>();
            if (word == "list") {
                file.choose = Choose::kList;
            } else if (word != "grid") {
                report(*choose, "choose", "must be \"grid\" or \"list\"; or give samples = 64");
            }
        }
        if (!samples) return;
        if (choose) return report(*samples, "samples", "and choose exclude each other");
        const auto count = samples->is_integer() ? samples->value<int64_t>() : std::nullopt;
        if (!count || *count < 1 || *count > kMostVariants) {
            return report(*samples, "samples", "must be a whole number from 1 to 10000");
        }
        file.choose = Choose::kSamples;
        file.samples = static_cast<int>(*count);
    }

    void read_vary(const toml::table& root, VariantsFile& file) {
        const toml::node* node = root.get("vary");
        if (!node) return;
        if (!node->is_table()) return report(*node, "vary", "must be a table: [vary]");
        for (const auto& [key, value] : *node->as_table()) {
            Varied varied{std::string(key.str()), {}, place_of(value)};
            if (read_values(value, varied, file)) file.knobs.push_back({{varied}});
        }
    }

    // A list of values, or a range.
    bool read_values(const toml::node& node, Varied& varied, const VariantsFile& file) {
        if (const toml::array* list = node.as_array()) return read_list(*list, varied);
        if (node.is_table() && node.as_table()->contains("from")) {
            return read_range(*node.as_table(), varied, file);
        }
        report(node,
               varied.address,
               "must be a list of values or { from = 3200, to = 6500, steps = 4 }");
        return false;
    }

    bool read_list(const toml::array& list, Varied& varied) {
        if (list.empty()) report(list, varied.address, "is an empty list");
        VariedValues values;
        for (const toml::node& value : list) values.texts.push_back(value_text(value));
        varied.values = values;
        return !list.empty();
    }

    // In the unit of the key that the address ends with.
    static std::optional<double> end_of_range(const toml::table& table,
                                              std::string_view end,
                                              const std::string& address) {
        const toml::node* node = table.get(end);
        if (!node) return std::nullopt;
        return read_number(*node, address.substr(address.rfind('.') + 1)).value;
    }

    bool read_range(const toml::table& table, Varied& varied, const VariantsFile& file) {
        report_unknown(table, kRangeKeys, varied.address + ".");
        const auto from = end_of_range(table, "from", varied.address);
        const auto to = end_of_range(table, "to", varied.address);
        const auto steps = table["steps"].value<int64_t>();
        VariedRange range;
        if (!from || !to) {
            report(table, varied.address, "needs two numbers, from and to");
            return false;
        }
        if (table.contains("steps") && (!steps || *steps < 2 || *steps > kMostVariants)) {
            report(table, varied.address + ".steps", "must be a whole number from 2 to 10000");
            return false;
        }
        if (!steps && file.choose != Choose::kSamples) {
            report(table, varied.address, "needs steps, a whole number of at least 2");
            return false;
        }
        varied.values = VariedRange{*from, *to, steps ? static_cast<int>(*steps) : 0};
        return true;
    }

    void read_swaps(const toml::table& root, VariantsFile& file) {
        const toml::node* node = root.get("swap");
        if (!node) return;
        if (!node->is_array_of_tables()) return report(*node, "swap", "must be written [[swap]]");
        for (const toml::node& element : *node->as_array()) read_swap(*element.as_table(), file);
    }

    void read_swap(const toml::table& table, VariantsFile& file) {
        Knob knob;
        size_t count = 0;
        for (const auto& [key, value] : table) {
            Varied varied{std::string(key.str()), {}, place_of(value)};
            if (!value.is_array()) {
                report(value, varied.address, "must be a list: [{ kit = \"jar-ribbed\" }, …]");
                continue;
            }
            if (!read_list(*value.as_array(), varied)) continue;
            const size_t own = value.as_array()->size();
            if (knob.varied.empty()) count = own;
            if (own != count) {
                report(value,
                       varied.address,
                       "has " + std::to_string(own) +
                           " values; the first key of this [[swap]] has " + std::to_string(count));
            }
            knob.varied.push_back(varied);
        }
        if (knob.varied.empty()) return report(table, "swap", "is empty");
        file.knobs.push_back(knob);
    }

    void read_rank(const toml::table& root, VariantsFile& file) {
        const toml::node* node = root.get("rank");
        if (!node) return;
        if (!node->is_table()) return report(*node, "rank", "must be a table: [rank]");
        for (const auto& [key, value] : *node->as_table()) {
            Wish wish{.measure = measure_address(std::string(key.str())), .place = place_of(value)};
            if (read_wish(value, wish)) file.wishes.push_back(wish);
        }
    }

    bool read_wish(const toml::node& node, Wish& wish) {
        const toml::table* table = node.as_table();
        if (table) report_unknown(*table, kWishKeys, wish.measure + ".");
        const toml::node* want = table ? table->get("want") : &node;
        const auto number = want ? want->value<double>() : std::nullopt;
        const auto word = want ? want->value<std::string>() : std::nullopt;
        if (number && std::isfinite(*number)) {
            wish.want = *number;
        } else if (word == "most" || word == "more") {
            wish.kind = WishKind::kMost;
        } else if (word == "least" || word == "less") {
            wish.kind = WishKind::kLeast;
        } else {
            report(node,
                   wish.measure,
                   "must be a number, \"most\", \"least\" or { want = 0.6, weight = 1.0 }");
            return false;
        }
        if (!table || !table->contains("weight")) return true;
        const auto weight = (*table)["weight"].value<double>();
        if (!weight || !(*weight > 0) || !std::isfinite(*weight)) {
            report(node, wish.measure + ".weight", "must be a number above 0");
            return false;
        }
        wish.weight = *weight;
        return true;
    }

    const std::string& path_;
    Problems& problems_;
};

}  // namespace

std::vector<std::string> all_variants_keys() {
    std::vector<std::string> keys = kTopKeys;
    for (const std::string& key : kRangeKeys) keys.push_back("vary." + key);
    for (const std::string& key : kWishKeys) keys.push_back("rank." + key);
    return keys;
}

VariantsFile read_variants(const std::string& path, Problems& problems) {
    const std::string text = read_toml_text(path);
    try {
        return VariantsReader(path, problems).read(toml::parse(text, path));
    } catch (const toml::parse_error& error) {
        const auto& at = error.source().begin;
        problems.add({path, static_cast<int>(at.line), static_cast<int>(at.column)},
                     "",
                     toml_mistake(error.description(), text, at.line));
        return {};
    }
}

std::string word_for_value(const std::string& value) {
    const toml::table parsed = toml::parse("value = " + value);
    const toml::node& node = *parsed.get("value");
    if (const auto text = node.value_exact<std::string>()) return *text;
    if (const auto flag = node.value_exact<bool>()) return *flag ? "with" : "without";
    if (const toml::table* table = node.as_table()) return (*table)["kit"].value_or(value);
    return value;
}

}  // namespace dapple

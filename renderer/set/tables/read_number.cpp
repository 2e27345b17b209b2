#include "set/tables/read_number.h"

#include <cmath>

#include "base/written_number.h"

namespace dapple {

std::string type_in_words(const toml::node& node) {
    switch (node.type()) {
        case toml::node_type::table:
            return "a table";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::string:
            return "a text";
        case toml::node_type::integer:
            return "a whole number";
        case toml::node_type::floating_point:
            return "a number";
        case toml::node_type::boolean:
            return "true or false";
        case toml::node_type::date:
        case toml::node_type::time:
        case toml::node_type::date_time:
            return "a date or time";
        default:
            return "nothing";
    }
}

ReadNumber read_number(const toml::node& node, const std::string& key) {
    if (const toml::value<std::string>* text = node.as_string()) {
        const Quantity& quantity = quantity_of(key);
        const auto value = number_in_words(text->get(), quantity);
        if (value) return {value, ""};
        return {std::nullopt,
                "is \"" + text->get() + "\", which is no number; write " + example_of(quantity)};
    }
    if (!node.is_number()) {
        return {std::nullopt, "is " + type_in_words(node) + "; must be a number"};
    }
    const double value = *node.value<double>();
    if (std::isfinite(value)) return {value, ""};
    return {std::nullopt,
            std::string("is ") + (std::isnan(value) ? "nan" : "infinite") +
                "; must be a finite number"};
}

}  // namespace dapple

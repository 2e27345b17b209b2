#include "set/gltf/gltf_json.h"

#include <cmath>

namespace dapple {

namespace {

constexpr double kLargestWhole = double{int64_t{1} << 40};

}  // namespace

GltfValue GltfValue::member(const char* name) const {
    const std::string key = key_.empty() ? name : key_ + "." + name;
    if (!is_there()) return {nullptr, key};
    if (!value_->is_object()) fail("must be an object, in { }");
    const auto found = value_->find(name);
    return {found == value_->end() ? nullptr : &*found, key};
}

size_t GltfValue::size() const {
    if (!is_there()) return 0;
    if (!value_->is_array()) fail("must be a list, in [ ]");
    return value_->size();
}

GltfValue GltfValue::entry(size_t index) const {
    return {index < size() ? &(*value_)[index] : nullptr, key_ + "[" + std::to_string(index) + "]"};
}

GltfValue GltfValue::in_list(const GltfValue& root, const char* name) const {
    const GltfValue list = root.member(name);
    const auto index = static_cast<size_t>(whole());
    if (index >= list.size()) {
        fail("is " + std::to_string(index) + ", but " + name + " has " +
             std::to_string(list.size()));
    }
    return list.entry(index);
}

int64_t GltfValue::whole(int64_t missing) const {
    if (!is_there()) return missing;
    const double value = value_->is_number() ? value_->get<double>() : -1.0;
    if (!(value >= 0 && value <= kLargestWhole) || value != std::floor(value)) {
        fail("must be a whole number, 0 or above");
    }
    return static_cast<int64_t>(value);
}

int64_t GltfValue::whole() const {
    if (!is_there()) fail("is missing");
    return whole(0);
}

double GltfValue::number(double missing) const {
    if (!is_there()) return missing;
    if (!value_->is_number() || !std::isfinite(value_->get<double>())) fail("must be a number");
    return value_->get<double>();
}

bool GltfValue::flag(bool missing) const {
    if (!is_there()) return missing;
    if (!value_->is_boolean()) fail("must be true or false");
    return value_->get<bool>();
}

std::string GltfValue::text(const std::string& missing) const {
    if (!is_there()) return missing;
    if (!value_->is_string()) fail("must be text");
    return value_->get<std::string>();
}

std::vector<double> GltfValue::numbers(const std::vector<double>& missing) const {
    if (!is_there()) return missing;
    if (size() != missing.size()) {
        fail("must be a list of " + std::to_string(missing.size()) + " numbers");
    }
    std::vector<double> list;
    for (size_t i = 0; i < missing.size(); ++i) list.push_back(entry(i).number(0));
    return list;
}

}  // namespace dapple

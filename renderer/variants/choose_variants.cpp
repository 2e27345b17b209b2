#include "variants/choose_variants.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdio>
#include <map>
#include <set>

#include "math/sequences.h"
#include "set/variants/read_variants.h"
#include "variants/knob_words.h"

namespace dapple {

namespace {

constexpr size_t kMostInGrid = 10000;
constexpr size_t kLongestName = 80;  // characters
constexpr size_t kLongestFolder = 100;

std::string number_text(double value) {
    std::array<char, 32> number{};
    std::snprintf(number.data(), number.size(), "%.6g", value);
    return number.data();
}

size_t count_of(const Varied& varied) {
    if (const auto* values = std::get_if<VariedValues>(&varied.values)) return values->texts.size();
    return static_cast<size_t>(std::get<VariedRange>(varied.values).steps);
}

size_t count_of(const Knob& knob) {
    return count_of(knob.varied.front());
}

// Value `index` of `count_of(varied)`.
SetChange change_of(const Varied& varied, size_t index) {
    if (const auto* values = std::get_if<VariedValues>(&varied.values)) {
        return {varied.address, values->texts[index], varied.place};
    }
    const auto& range = std::get<VariedRange>(varied.values);
    const double share = static_cast<double>(index) / (range.steps - 1);
    return {
        varied.address, number_text(range.from + share * (range.to - range.from)), varied.place};
}

// The value at `u`, which is from 0 to 1.
SetChange sampled_change(const Varied& varied, double u) {
    const size_t count = count_of(varied);
    if (count > 0) {
        return change_of(varied,
                         std::min(count - 1, static_cast<size_t>(u * static_cast<double>(count))));
    }
    const auto& range = std::get<VariedRange>(varied.values);
    return {varied.address, number_text(range.from + u * (range.to - range.from)), varied.place};
}

using Changes = std::vector<std::vector<SetChange>>;

Changes grid_of(const VariantsFile& file, Problems& problems) {
    size_t count = 1;
    for (const Knob& knob : file.knobs) {
        count *= count_of(knob);
        if (count <= kMostInGrid) continue;
        problems.add({file.path}, "vary", "makes more than 10000 variants");
        return {};
    }
    Changes all(count);
    for (size_t i = 0; i < count; ++i) {
        size_t rest = i;
        for (auto knob = file.knobs.rbegin(); knob != file.knobs.rend(); ++knob) {
            const size_t index = rest % count_of(*knob);
            rest /= count_of(*knob);
            for (const Varied& varied : knob->varied) all[i].push_back(change_of(varied, index));
        }
        std::reverse(all[i].begin(), all[i].end());
    }
    return all;
}

Changes list_of(const VariantsFile& file, Problems& problems) {
    const size_t count = count_of(file.knobs.front());
    for (const Knob& knob : file.knobs) {
        if (count_of(knob) == count) continue;
        const Varied& varied = knob.varied.front();
        problems.add(varied.place,
                     varied.address,
                     "has " + std::to_string(count_of(knob)) + " values and \"" +
                         file.knobs.front().varied.front().address + "\" has " +
                         std::to_string(count) + "; in a list all must have as many");
        return {};
    }
    Changes all(count);
    for (size_t i = 0; i < count; ++i) {
        for (const Knob& knob : file.knobs) {
            for (const Varied& varied : knob.varied) all[i].push_back(change_of(varied, i));
        }
    }
    return all;
}

Changes samples_of(const VariantsFile& file) {
    Changes all(static_cast<size_t>(file.samples));
    for (size_t i = 0; i < all.size(); ++i) {
        for (size_t k = 0; k < file.knobs.size(); ++k) {
            // Four dimensions of a sequence each; all points of a variant have one index.
            const auto point =
                sobol_owen_4d(static_cast<uint32_t>(i), static_cast<uint32_t>(k / 4 + 1));
            const double u = static_cast<double>(point[k % 4]);
            for (const Varied& varied : file.knobs[k].varied) {
                all[i].push_back(sampled_change(varied, u));
            }
        }
    }
    return all;
}

struct Template {
    std::string key;  // "name" or "caption"
    const std::string& text;
    const Place& place;
};

// "jar {glass.jar.turn_deg}°" → "jar 7.5°"
std::string text_by_template(const Template& by,
                             const std::vector<SetChange>& changes,
                             Problems& problems) {
    std::map<std::string, std::string> words;
    std::vector<std::string> addresses;
    for (const SetChange& change : changes) {
        words[change.address] = word_for_value(change.value);
        addresses.push_back(change.address);
    }
    std::string name;
    const std::string& text = by.text;
    for (size_t i = 0; i < text.size(); ++i) {
        const size_t end = text[i] == '{' ? text.find('}', i) : std::string::npos;
        if (end == std::string::npos) {
            name += text[i];
            continue;
        }
        const std::string address = text.substr(i + 1, end - i - 1);
        const auto word = words.find(address);
        if (word == words.end()) {
            const std::string nearest = nearest_word(address, addresses);
            problems.add(by.place,
                         by.key,
                         "{" + address + "} does not vary" +
                             (nearest.empty() ? "" : "; did you mean {" + nearest + "}?"));
            return "";
        }
        name += word->second;
        i = end;
    }
    return name;
}

// The number, with as many digits as the last one has.
std::string number_name(size_t index, size_t count) {
    std::string digits = std::to_string(index + 1);
    const size_t width = std::to_string(count).size();
    return "variant " + std::string(width - std::min(width, digits.size()), '0') + digits;
}

// What varies, in words: "ribbed jar turn 7.5°, moon colour 3200 K".
std::string name_in_words(const std::vector<SetChange>& changes) {
    std::string name;
    for (const SetChange& change : changes) {
        name += (name.empty() ? "" : ", ") + words_for_change(change.address, change.value);
    }
    return name;
}

// Names for a file without a template: what varies in words, or numbers where that is too long or
// does not tell the variants apart.
std::vector<std::string> usual_names(const Changes& all) {
    std::vector<std::string> names;
    bool are_short = true;
    for (const std::vector<SetChange>& changes : all) {
        names.push_back(name_in_words(changes));
        are_short = are_short && names.back().size() <= kLongestName;
    }
    const std::set<std::string> different(names.begin(), names.end());
    if (are_short && different.size() == names.size()) return names;
    for (size_t i = 0; i < names.size(); ++i) names[i] = number_name(i, names.size());
    return names;
}

// Letters, digits, - _ . and spaces as -; no dot at an end.
std::string folder_for(const std::string& name) {
    std::string folder;
    for (const char c : name) {
        const bool kept = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.';
        if (kept) {
            folder += c;
        } else if (!folder.empty() && folder.back() != '-') {
            folder += '-';
        }
    }
    folder = folder.substr(0, kLongestFolder);
    while (!folder.empty() && (folder.back() == '-' || folder.back() == '.')) folder.pop_back();
    while (!folder.empty() && folder.front() == '.') folder.erase(folder.begin());
    return folder.empty() ? "variant" : folder;
}

// What varies and is not in the template: the first, or the first of all if none is missing.
std::string unnamed_address(const std::string& name_template,
                            const std::vector<SetChange>& changes) {
    for (const SetChange& change : changes) {
        if (name_template.find("{" + change.address + "}") == std::string::npos) {
            return change.address;
        }
    }
    return changes.front().address;
}

Changes changes_of(const VariantsFile& file, Problems& problems) {
    switch (file.choose) {
        case Choose::kGrid:
            return grid_of(file, problems);
        case Choose::kList:
            return list_of(file, problems);
        case Choose::kSamples:
            return samples_of(file);
    }
    return {};
}

}  // namespace

std::vector<Variant> choose_variants(const VariantsFile& file, Problems& problems) {
    if (file.knobs.empty()) return {};
    std::vector<Variant> variants;
    std::set<std::string> names;
    std::set<std::string> folders;
    const Changes all = changes_of(file, problems);
    const std::vector<std::string> usual = usual_names(all);
    for (const std::vector<SetChange>& changes : all) {
        Variant variant{usual[variants.size()], "", changes};
        if (!file.name_template.empty()) {
            variant.name =
                text_by_template({"name", file.name_template, file.name_place}, changes, problems);
            if (variant.name.empty()) return {};
        }
        variant.caption = variant.name;
        if (!file.caption_template.empty()) {
            variant.caption = text_by_template(
                {"caption", file.caption_template, file.caption_place}, changes, problems);
            if (variant.caption.empty()) return {};
        }
        if (!names.insert(variant.name).second) {
            problems.add(file.name_place,
                         "name",
                         "two variants get the name \"" + variant.name +
                             "\"; name all that varies, such as {" +
                             unnamed_address(file.name_template, changes) + "}");
            return {};
        }
        const std::string folder = folder_for(variant.name);
        variant.folder = folder;
        for (int n = 2; !folders.insert(variant.folder).second; ++n) {
            variant.folder = folder + "-" + std::to_string(n);
        }
        variants.push_back(std::move(variant));
    }
    return variants;
}

std::string set_text_of(const std::string& set_text, const Variant& variant, Problems& problems) {
    return change_set(set_text, variant.changes, problems);
}

}  // namespace dapple

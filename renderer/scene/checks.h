// Small questions that every table asks of its values. Each answers with a value that can be used,
// the default where the user's is wrong, so that checking goes on to the next one.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/problems.h"
#include "math/vec.h"
#include "set/set_description.h"

namespace dapple {

std::string number_text(double value);  // "0.5", "5600"

// "is WHAT; must be WANTED" at the field's place.
void add_problem(const Field<double>& field, const std::string& wanted, Problems& problems);

// Says that a value that is there has no use, and why.
template <typename T>
void note_unused(const Field<T>& field, const std::string& why, Problems& problems) {
    if (field.written) problems.note(field.place, field.key, "is not used: " + why);
}

// All bounds included.
double checked_range(
    const Field<double>& field, double fallback, double low, double high, Problems& problems);
// Above 0, up to `high`.
double checked_positive(const Field<double>& field,
                        double fallback,
                        double high,
                        Problems& problems);
int checked_whole(const Field<int64_t>& field, int fallback, int low, int high, Problems& problems);
// Two lengths, each above 0 and up to `high`.
Vec2 checked_size(const Field<Pair>& field, const Vec2& fallback, double high, Problems& problems);
// Each channel from 0 to `high`.
Rgb checked_colour(const Field<Triple>& field,
                   const Rgb& fallback,
                   double high,
                   Problems& problems);
// A place in the set; a problem where it is left out or beyond all sets.
Point checked_point(const Field<Triple>& field, Problems& problems);
// The way from `from` to the point in `aim`; a problem where they coincide. `what` says who looks.
Direction checked_aim(const Field<Triple>& aim,
                      const Field<Triple>& position,
                      const std::string& what,
                      Problems& problems);

// False, with a problem, where the field is not in the file.
template <typename T>
bool check_written(const Field<T>& field, const std::string& why, Problems& problems) {
    if (!field.written) problems.add(field.place, field.key, "is missing; " + why);
    return field.given;
}

// One word of a closed list.
template <typename T>
T checked_word(const Field<std::string>& field,
               const std::vector<std::pair<std::string, T>>& words,
               T fallback,
               Problems& problems) {
    if (!field.given) return fallback;
    std::vector<std::string> names;
    std::string list;
    for (const auto& [word, value] : words) {
        if (word == field.value) return value;
        names.push_back(word);
        list += (list.empty() ? "" : ", ") + word;
    }
    const std::string nearest = nearest_word(field.value, names);
    problems.add(field.place,
                 field.key,
                 "is \"" + field.value + "\"; must be one of " + list +
                     (nearest.empty() ? "" : "; did you mean " + nearest + "?"));
    return fallback;
}

// The path that a key names, relative to the file in which the key stands (the set file or a kit).
std::string path_named_by(const Field<std::string>& key);

// The given name, or the table's label where it has none ("glass 2").
std::string name_or_label(const Field<std::string>& name, const TableDescription& table);

}  // namespace dapple

// Checks of single values, for all tables. Each adds a problem if the value is wrong or out of
// range and returns a value that can be used: the user's, or `fallback` if that is missing or
// wrong.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/problems.h"
#include "math/vec.h"
#include "set/set_description.h"

namespace dapple {

std::string number_text(double value);  // "0.5", "5600"

// Adds the problem "is VALUE; must be ALLOWED".
void add_problem(const Field<double>& field, const std::string& allowed, Problems& problems);

// Adds a note, with the reason, if the field is in the file.
template <typename T>
void note_unused(const Field<T>& field, const std::string& why, Problems& problems) {
    if (field.written) problems.note(field.place, field.key, "is not used: " + why);
}

// From `low` to `high`, both included.
double checked_range(
    const Field<double>& field, double fallback, double low, double high, Problems& problems);
// Above 0, up to `high`.
double checked_positive(const Field<double>& field,
                        double fallback,
                        double high,
                        Problems& problems);
// The same with a conversion: checked_range in degrees, checked_positive in millimetres.
float checked_radians(
    const Field<double>& degrees, double fallback, double low, double high, Problems& problems);
float checked_metres(const Field<double>& mm,
                     double fallback_m,
                     double high_mm,
                     Problems& problems);
int checked_whole(const Field<int64_t>& field, int fallback, int low, int high, Problems& problems);
// Two lengths, each above 0 and up to `high`.
Vec2 checked_size(const Field<Pair>& field, const Vec2& fallback, double high, Problems& problems);
// Each channel from 0 to `high`.
Rgb checked_colour(const Field<Triple>& field,
                   const Rgb& fallback,
                   double high,
                   Problems& problems);
// A place in the set. A missing place, or one that is too far away, is a problem.
Point checked_point(const Field<Triple>& field, Problems& problems);
// The direction from `position` to `aim`. The message says that `what` ("the camera looks")
// nowhere.
Direction checked_aim(const Field<Triple>& aim,
                      const Field<Triple>& position,
                      const std::string& what,
                      Problems& problems);

// Adds a problem if the field is not in the file. Returns whether it has a value.
template <typename T>
bool check_written(const Field<T>& field, const std::string& why, Problems& problems) {
    if (!field.written) problems.add(field.place, field.key, "is missing; " + why);
    return field.given;
}

// The value of one of `words`.
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
// Returns false, with a problem, if nothing is at that path.
bool check_exists(const Field<std::string>& key, Problems& problems);

// The given name, or the table's label ("glass 2") if it has none.
std::string name_or_label(const Field<std::string>& name, const TableDescription& table);

}  // namespace dapple

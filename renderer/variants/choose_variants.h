// From a variants file to its variants.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "set/change_set.h"
#include "set/variants/variants_file.h"

namespace dapple {

struct Variant {
    std::string name;    // by the template
    std::string folder;  // the name in letters that every file system takes; each is different
    std::vector<SetChange> changes;
    std::string caption{};  // on the sheet, by its template; else the name
};

// Grid: every value of a knob with every value of all others, the last knob fastest. List: value k
// of every knob. Samples: points of a low-discrepancy sequence (math/sequences.h), the same at
// every call. Problems: lists of unequal length, more than 10 000 variants, a template with an
// address that does not vary, two variants of the same name.
std::vector<Variant> choose_variants(const VariantsFile& file, Problems& problems);

// The set's text with the changes of a variant; "" with problems. Messages about a change name the
// variants file.
std::string set_text_of(const std::string& set_text, const Variant& variant, Problems& problems);

}  // namespace dapple

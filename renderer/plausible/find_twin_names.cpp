#include "plausible/find_twin_names.h"

#include <map>

namespace dapple {

namespace {

template <typename Description>
void add_twins(const std::vector<Description>& things, Doubts& doubts) {
    std::map<std::string, int> lines;  // of the first thing with the name
    for (const Description& thing : things) {
        const Field<std::string>& name = thing.name;
        if (!name.given) continue;
        const auto [earlier, is_new] = lines.emplace(name.value, name.place.line);
        if (is_new) continue;
        doubts.push_back(make_doubt(name.place,
                                    name.key,
                                    "is used twice, first in line " +
                                        std::to_string(earlier->second) +
                                        "; give each its own name, to tell them apart"));
    }
}

}  // namespace

Doubts find_twin_names(const SetDescription& set) {
    Doubts doubts;
    add_twins(set.glasses, doubts);
    add_twins(set.diffusers, doubts);
    add_twins(set.flags, doubts);
    add_twins(set.bounces, doubts);
    add_twins(set.stand_ins, doubts);
    return doubts;
}

}  // namespace dapple

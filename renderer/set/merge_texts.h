// Two people have changed one text: the changes of both, where they are in different lines.
#pragma once

#include <optional>
#include <string>

namespace dapple {

// `before` is what both began with. Nothing if both have changed the same lines, or lines that
// touch, in different ways.
std::optional<std::string> merge_texts(const std::string& before,
                                       const std::string& mine,
                                       const std::string& theirs);

}  // namespace dapple

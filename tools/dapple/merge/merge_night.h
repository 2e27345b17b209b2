// Joins the shares of a night: the films first, then all files of a night that was not shared out.
#pragma once

#include <string>
#include <vector>

namespace dapple {

struct MergeNightOptions {
    std::vector<std::string> folders;  // of shares, or of nights with shares
    std::string output;                // the night's folder
    std::string variants_file;         // empty: where the shares say it is
    int threads = 0;                   // 0: all
};

enum class MergeResult {
    kWhole,
    kMissing,   // passes are missing; what is there is written
    kProblems,  // in the variants file or its set; they are printed
    kStopped,
};

MergeResult merge_night(const MergeNightOptions& options);

}  // namespace dapple

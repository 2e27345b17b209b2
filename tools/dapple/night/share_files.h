// The files of one share of a night, in a folder of its own: NIGHT/shares/3-of-8. Beside a folder
// for each of its films it has share.json, which says what the share is and how far it is. Nothing
// outside is written, so shares on different machines never wait for each other.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "night/night_plan.h"
#include "variants/night_shares.h"

namespace dapple {

struct ShareUnitState {
    ShareUnit unit;
    int64_t made = 0;     // passes
    std::string failure;  // why it failed; empty: it did not
};

// What a share was started with.
struct ShareRecord {
    std::string folder;
    Share share;
    int64_t passes = 0;  // of each variant, in all shares together
    std::string variants_file;
    int width = 0;  // px; 0: the set's
    uint64_t seed = 1;
};

std::string share_folder(const std::string& night_folder, const Share& share);

void write_share(const ShareRecord& record,
                 const NightPlan& plan,
                 const std::vector<ShareUnitState>& units);

// The shares in the folders: a folder is that of a share or that of a night. Sorted by number.
// Throws FileError if a folder has no share.
std::vector<ShareRecord> read_shares(const std::vector<std::string>& folders);

// One line for each share: "share 3 of 8: 120 of 200 passes". Empty if the night has no shares.
std::string share_status_text(const std::string& night_folder);

}  // namespace dapple

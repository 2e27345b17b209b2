// The kit list: typical fixtures, glasses, boards and surfaces that a set file can start from, and
// the supports that it needs (read_gear.h).
//
// A kit file is TOML like a set file. Each of its tables has a name, `kit`, and a line `about` it.
// A table of a set file with `kit = "NAME"` takes its missing keys from the kit entry of that kind
// and name; the keys in the set file come first. Some keys say the same thing in two ways
// (output_lm and lux): then one of them in the set file hides the others of the entry.
//
// Kit files are looked for in the folder kit/ beside the set file, then in the project's
// scenes/kit/, above the running program and where it was built. The first entry of a name is used.
#pragma once

#include <toml++/toml.h>

#include <memory>
#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct KitEntry {
    std::string kind;  // fixture, glass, diffuser, flag, bounce, surface; or a support
    std::string name;
    std::string about;
    const toml::table* table = nullptr;  // owned by the shelf
    Place place;
    // It has only a name and `count` (and `about`): it says how many the user has of the entry of
    // that name, which comes later.
    bool only_counts = false;
};

class KitShelf {
  public:
    // Kit files are read at the first call of a function; what is wrong with them goes to
    // `problems`.
    KitShelf(std::vector<std::string> folders, Problems& problems)
        : folders_(std::move(folders)), problems_(problems) {}

    // In the order in which they were found. The first of several with one name is used.
    const std::vector<KitEntry>& entries();
    const KitEntry* find(const std::string& kind, const std::string& name);

    // The nearest name of that kind, "" if none is near.
    std::string nearest(const std::string& kind, const std::string& name);

  private:
    void read_folder(const std::string& folder);
    void read_file(const std::string& path);
    void add_entries(const std::string& kind, const toml::table& file, const std::string& path);

    std::vector<std::string> folders_;
    Problems& problems_;
    bool is_read_ = false;
    std::vector<std::unique_ptr<toml::table>> files_;
    std::vector<KitEntry> entries_;
};

// Whether a table of that kind may have the key `kit`.
bool has_kit(const std::string& kind);
// Whether it is a kind of entry that only the packing list counts: a stand, a cable.
bool is_support(const std::string& kind);
std::vector<std::string> support_kinds();

// The folders with kit files for the set file at `set_path`, which is "" if there is none.
std::vector<std::string> kit_folders(const std::string& set_path);

// The keys of a kit entry that are not used, as the set file's table has `written` them or keys
// that say the same thing.
std::vector<std::string> keys_hidden_by(const toml::table& written);

}  // namespace dapple

// The kit list: what stands in for a fixture, a glass or a board that is carried in.
//
// A kit file is TOML like a set file; each of its tables has its name under `kit` and a line about
// it under `about`. A table of a set file that has `kit = "NAME"` starts from the entry of its kind
// and that name; what the set file writes itself wins. Where two keys say the same thing in two
// ways (output_lm and lux), writing one of them in the set file hides the other of the entry.
//
// Kits are looked for in the folder kit/ beside the set file, then in the project's scenes/kit/:
// above the running program, and where it was built. The first that has the name counts.
#pragma once

#include <toml++/toml.h>

#include <memory>
#include <string>
#include <vector>

#include "base/problems.h"

namespace dapple {

struct KitEntry {
    std::string kind;  // fixture, glass, diffuser, flag, bounce
    std::string name;
    std::string about;
    const toml::table* table = nullptr;  // of the shelf
    Place place;
};

class KitShelf {
  public:
    // Kit files are read when something is first asked for; what is wrong with them goes there too.
    KitShelf(std::vector<std::string> folders, Problems& problems)
        : folders_(std::move(folders)), problems_(problems) {}

    // In the order in which they are found; of equals the first counts.
    const std::vector<KitEntry>& entries();
    const KitEntry* find(const std::string& kind, const std::string& name);

    // The nearest name of the kind, "" where none is near.
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

// Whether tables of that kind can name one.
bool has_kit(const std::string& kind);

// For a set file at `set_path`; "" for none.
std::vector<std::string> kit_folders(const std::string& set_path);

// Keys of an entry that do not count where the set file's table writes those that it does.
std::vector<std::string> keys_hidden_by(const toml::table& written);

}  // namespace dapple

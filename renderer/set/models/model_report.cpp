#include "set/models/model_report.h"

#include <algorithm>
#include <utility>

namespace dapple {

ModelReport::ModelReport(std::string file, Problems& problems)
    : file_(std::move(file)), problems_(problems) {}

const ModelReport::Entry* ModelReport::find(const std::vector<Entry>& entries,
                                            const std::string& key,
                                            std::string_view kind) {
    const auto found = std::find_if(entries.begin(), entries.end(), [&](const Entry& entry) {
        return entry.kind == kind && entry.key == key;
    });
    return found == entries.end() ? nullptr : &*found;
}

void ModelReport::add(std::vector<Entry>& entries, Entry entry) {
    if (entry.kind.empty()) entry.kind = entry.message;
    if (const Entry* known = find(entries, entry.key, entry.kind)) {
        ++entries[static_cast<size_t>(known - entries.data())].count;
    } else if (entries.size() <= kMaxProblemsPerFile) {
        entries.push_back(std::move(entry));
    } else {
        ++entries.back().count;  // of the kinds beyond the limit
    }
}

void ModelReport::problem(Place place, std::string key, std::string message, ReportKind kind) {
    add(problems_here_,
        {std::move(place),
         std::move(key),
         std::move(message),
         std::string(kind.name),
         kind.counted,
         1});
}

void ModelReport::note(Place place, std::string key, std::string message, ReportKind kind) {
    add(notes_here_,
        {std::move(place),
         std::move(key),
         std::move(message),
         std::string(kind.name),
         kind.counted,
         1});
}

bool ModelReport::is_new_note(const std::string& key, std::string_view kind) const {
    return find(notes_here_, key, kind) == nullptr;
}

void ModelReport::finish() {
    const auto add_all = [&](const std::vector<Entry>& entries, const char* what, auto add_line) {
        for (size_t i = 0; i < entries.size(); ++i) {
            const Entry& entry = entries[i];
            const std::string count = std::to_string(entry.count);
            if (i == kMaxProblemsPerFile) {
                (problems_.*add_line)(place(0, 0), "", "and " + count + " more " + what);
            } else {
                const std::string all = " (" + count + " " + entry.counted + " in all)";
                (problems_.*add_line)(
                    entry.place, entry.key, entry.message + (entry.count > 1 ? all : ""));
            }
        }
    };
    add_all(problems_here_, "problems", &Problems::add);
    add_all(notes_here_, "notes", &Problems::note);
}

}  // namespace dapple

#include "set/change_set.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "set/change_address.h"
#include "set/text_edits.h"

namespace dapple {

namespace {

// What a table that replaces another one keeps of it: what it is called and where it stands.
const std::set<std::string, std::less<>> kStaysInPlace = {"name",
                                                          "position",
                                                          "aim",
                                                          "turn_deg",
                                                          "tilt_deg",
                                                          "clip_to",
                                                          "clip_mm",
                                                          "wall",
                                                          "centre_m",
                                                          "surface"};

// The table that an address names, and the rest of the address: the keys.
struct Target {
    toml::table* table = nullptr;
    std::vector<std::string> keys;  // empty: the whole table
    bool is_named = false;          // of an array of tables
};

std::string quoted(const std::string& word) {
    return "\"" + word + "\"";
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& candidates) {
    const std::string nearest = nearest_word(word, candidates);
    if (!nearest.empty()) return "; did you mean " + quoted(nearest) + "?";
    std::string all;
    for (const std::string& c : candidates) all += (all.empty() ? "" : ", ") + quoted(c);
    return candidates.empty() ? "" : "; there are " + all;
}

// The changes of one set file.
class SetChanger {
  public:
    SetChanger(const std::string& text, Problems& problems)
        : text_(text), root_(toml::parse(text)), problems_(problems) {}

    void apply(const SetChange& change) {
        const std::optional<Target> target = find(change);
        if (!target) return;
        toml::table value;
        try {
            value = toml::parse("value = " + change.value);
        } catch (const toml::parse_error& error) {
            report(change, std::string(error.description()));
            return;
        }
        const toml::node& node = *value.get("value");
        if (target->keys.empty()) {
            change_table(change, *target, node);
        } else {
            change_key(change, *target, node);
        }
    }

    std::string result() {
        std::vector<TextEdit> edits;
        for (const auto& [table, keys] : changed_keys_) {
            if (changed_tables_.contains(table)) continue;
            for (const std::string& key : keys) edits.push_back(edit_of(*table, key));
        }
        for (const auto& [table, other] : changed_tables_) {
            edits.push_back(edit_of(*table, other ? std::optional(merged(*table, *other)) : other));
        }
        return with_edits(text_, edits);
    }

  private:
    void report(const SetChange& change, const std::string& message) {
        problems_.add(change.place, change.address, message);
    }

    std::vector<std::string> keys_of_root() const {
        std::vector<std::string> keys;
        for (const auto& [key, node] : root_) {
            if (node.is_table() || node.is_array_of_tables()) keys.emplace_back(key.str());
        }
        return keys;
    }

    std::optional<Target> find(const SetChange& change) {
        const size_t dot = change.address.find('.');
        const std::string kind = change.address.substr(0, dot);
        const std::string rest = dot == std::string::npos ? "" : change.address.substr(dot + 1);
        toml::node* const node = root_.get(kind);
        if (node && node->is_table()) {
            if (rest.empty()) report(change, "names a whole table; name one of its keys too");
            if (rest.empty()) return std::nullopt;
            return Target{node->as_table(), split_at_dots(rest), false};
        }
        if (node && node->is_array_of_tables()) {
            return find_named(change, *node->as_array(), kind, rest);
        }
        const std::string whole = kind_of_thing(root_, kind);
        report(
            change,
            "the set has no " + quoted(kind) +
                (whole.empty() ? did_you_mean(kind, keys_of_root())
                               : "; did you mean " + quoted(whole + "." + change.address) + "?"));
        return std::nullopt;
    }

    std::optional<Target> find_counted(const SetChange& change,
                                       toml::array& tables,
                                       const std::pair<size_t, std::string>& counted) {
        if (counted.first < 1 || counted.first > tables.size()) {
            report(change, "the set has " + std::to_string(tables.size()) + " of these");
            return std::nullopt;
        }
        return Target{
            tables.get(counted.first - 1)->as_table(), split_at_dots(counted.second), true};
    }

    // The table whose name `rest` begins with. Names may have dots, so the longest one is taken.
    // A table without a name has the usual one, such as "flag 1".
    std::optional<Target> find_named(const SetChange& change,
                                     toml::array& tables,
                                     const std::string& kind,
                                     const std::string& rest) {
        Target found;
        std::string found_name;
        std::vector<std::string> names;
        for (toml::node& node : tables) {
            toml::table& table = *node.as_table();
            const std::string usual = kind + " " + std::to_string(names.size() + 1);
            const std::string name = table["name"].value_or(usual);
            names.push_back(name);
            const bool fits = rest == name || rest.starts_with(name + ".");
            if (!fits || name.size() <= found_name.size()) continue;
            found_name = name;
            found.table = &table;
        }
        if (!found.table) {
            if (const auto counted = counted_name(rest)) {
                return find_counted(change, tables, *counted);
            }
            const std::string name = rest.substr(0, rest.find('.'));
            report(change,
                   (rest.empty() ? "needs a name after " + quoted(kind)
                                 : "the set has none of the name " + quoted(name)) +
                       did_you_mean(name, names));
            return std::nullopt;
        }
        found.is_named = true;
        if (rest.size() > found_name.size()) {
            found.keys = split_at_dots(rest.substr(found_name.size() + 1));
        }
        return found;
    }

    void change_key(const SetChange& change, const Target& target, const toml::node& value) {
        toml::table* table = target.table;
        for (size_t k = 0; k + 1 < target.keys.size(); ++k) {
            if (!table->contains(target.keys[k])) table->insert(target.keys[k], toml::table{});
            table = table->get(target.keys[k])->as_table();
            if (table) continue;
            report(change, quoted(target.keys[k]) + " is not a table of keys");
            return;
        }
        // The place stays that of the old value, where the new one is written.
        if (const toml::node* old = target.table->get(target.keys.front())) {
            places_[{target.table, target.keys.front()}] = old->source();
        }
        const auto swapped = changed_tables_.find(target.table);
        if (swapped != changed_tables_.end() && swapped->second) {
            report_given_twice(change, target.keys.front(), *swapped->second);
        }
        table->insert_or_assign(target.keys.back(), value);
        changed_keys_[target.table].insert(target.keys.front());
    }

    void change_table(const SetChange& change, const Target& target, const toml::node& value) {
        if (target.table->is_inline()) {
            report(change, "is written within one line; write it as a table of its own to vary it");
        } else if (value.is_boolean()) {
            if (!*value.value<bool>()) changed_tables_[target.table] = std::nullopt;
        } else if (const toml::table* other = value.as_table()) {
            for (const std::string& key : changed_keys_[target.table]) {
                report_given_twice(change, key, *other);
            }
            changed_tables_[target.table] = *other;
        } else {
            report(change, "is a whole table; allowed are true, false or { keys = values }");
        }
    }

    void report_given_twice(const SetChange& change,
                            const std::string& key,
                            const toml::table& swapped_in) {
        if (!swapped_in.contains(key)) return;
        report(change, quoted(key) + " is given twice: as what varies and in what is swapped in");
    }

    // What is swapped in, with what stays of the old table: its place, and the keys that vary too.
    toml::table merged(const toml::table& old, const toml::table& other) const {
        const auto changed = changed_keys_.find(&old);
        toml::table result;
        for (const auto& [key, node] : old) {
            const bool varies =
                changed != changed_keys_.end() && changed->second.contains(std::string(key.str()));
            if (varies || kStaysInPlace.contains(key.str())) result.insert(key, node);
        }
        for (const auto& [key, node] : other) result.insert_or_assign(key, node);
        return result;
    }

    TextEdit edit_of(const toml::table& table, const std::string& key) const {
        const std::string value = value_text(*table.get(key));
        const auto old = places_.find({&table, key});
        if (old != places_.end() && old->second.begin.line > 0) {
            return {offset_of(text_, old->second.begin), offset_of(text_, old->second.end), value};
        }
        const toml::node* name = table.get("name");
        if (table.is_inline()) {
            const size_t end = offset_of(text_, name ? name->source().end : table.source().begin);
            return {end, end, name ? ", " + key + " = " + value : key + " = " + value + ", "};
        }
        const toml::source_position& above = name ? name->source().end : table.source().begin;
        const size_t line_end = std::min(text_.size(), text_.find('\n', offset_of(text_, above)));
        return {line_end, line_end, "\n" + key + " = " + value};
    }

    // The lines of a table, without comments that belong to the next one.
    TextEdit edit_of(const toml::table& table, const std::optional<toml::table>& other) const {
        toml::source_position begin = table.source().begin;
        begin.column = 1;
        TextEdit edit{offset_of(text_, begin), text_.size(), ""};
        for (const size_t next : headers()) {
            if (next > edit.begin) edit.end = std::min(edit.end, next);
        }
        while (edit.end > edit.begin) {
            const size_t line = text_.rfind('\n', edit.end - 2) + 1;
            const size_t first = text_.find_first_not_of(" \t", line);
            if (line <= edit.begin || (text_[first] != '#' && text_[first] != '\n')) break;
            edit.end = line;
        }
        if (!other) return edit;
        edit.text = text_.substr(edit.begin, text_.find('\n', edit.begin) - edit.begin) + "\n";
        for (const auto& [key, node] : *other) {
            edit.text += std::string(key.str()) + " = " + value_text(node) + "\n";
        }
        return edit;
    }

    // Offsets of the lines where tables of the set begin.
    std::vector<size_t> headers() const {
        std::vector<size_t> result;
        const auto add = [&](const toml::table& table) {
            toml::source_position at = table.source().begin;
            at.column = 1;
            if (!table.is_inline() && at.line > 0) result.push_back(offset_of(text_, at));
        };
        for (const auto& [key, node] : root_) {
            if (const toml::table* table = node.as_table()) add(*table);
            if (!node.is_array_of_tables()) continue;
            for (const toml::node& element : *node.as_array()) add(*element.as_table());
        }
        return result;
    }

    const std::string& text_;
    toml::table root_;
    Problems& problems_;
    std::map<const toml::table*, std::set<std::string>> changed_keys_;  // keys at their top
    std::map<std::pair<const toml::table*, std::string>, toml::source_region> places_;
    // What is swapped in; nullopt: taken out.
    std::map<const toml::table*, std::optional<toml::table>> changed_tables_;
};

}  // namespace

std::string change_set(const std::string& text,
                       const std::vector<SetChange>& changes,
                       Problems& problems) {
    SetChanger changer(text, problems);
    for (const SetChange& change : changes) changer.apply(change);
    return changer.result();
}

}  // namespace dapple

#include "shell/write_completion.h"

namespace dapple {

namespace {

std::string joined(const std::vector<std::string>& words, const std::string& between) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
    return text;
}

// Puts a backslash before each of `special`.
std::string escaped(const std::string& text, const std::string& special) {
    std::string result;
    for (const char c : text) {
        if (special.find(c) != std::string::npos) result += '\\';
        result += c;
    }
    return result;
}

// For a shell's single quotes.
std::string quoted(const std::string& text) {
    std::string result = "'";
    for (const char c : text) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return result + "'";
}

// The ending of the files that a value names; "": any text.
std::string ending_of(const OptionWords& option) {
    const std::string& kind = option.place.empty() ? option.value : option.place;
    if (kind == "SET" || kind == "VARIANTS") return "toml";
    return kind == "FILM" || kind == "film" ? "exr" : "";
}

bool is_folder(const OptionWords& option) {
    return option.value == "FOLDER";
}

std::string names_of(const std::vector<CommandWords>& commands) {
    std::vector<std::string> names;
    for (const CommandWords& command : commands) names.push_back(command.name);
    return joined(names, " ");
}

// What bash offers for a value.
std::string bash_values(const OptionWords& option) {
    if (is_folder(option)) return "COMPREPLY=($(compgen -d -- \"$cur\"))";
    if (!option.choices().empty()) {
        return "COMPREPLY=($(compgen -W \"" + joined(option.choices(), " ") + "\" -- \"$cur\"))";
    }
    const std::string ending = ending_of(option);
    if (ending.empty()) return "COMPREPLY=()";
    return "COMPREPLY=($(compgen -f -X '!*." + ending + "' -- \"$cur\") $(compgen -d -- \"$cur\"))";
}

std::string bash_command(const CommandWords& command) {
    std::string names;
    std::string values;
    std::string places = "            COMPREPLY=()\n";
    for (const OptionWords& option : command.options) {
        if (!option.place.empty()) {
            places = "            " + bash_values(option) + "\n";
            continue;
        }
        names += (names.empty() ? "" : " ") + joined(option.names, " ");
        if (option.value.empty()) continue;
        values += "                " + joined(option.names, "|") + ") " + bash_values(option) +
                  "; return ;;\n";
    }
    return "        " + command.name + ")\n            case $prev in\n" + values +
           "            esac\n            if [[ $cur == -* ]]; then\n"
           "                COMPREPLY=($(compgen -W \"" +
           names + "\" -- \"$cur\"))\n                return\n            fi\n" + places +
           "            ;;\n";
}

// What zsh offers for a value, after its name.
std::string zsh_values(const OptionWords& option) {
    if (is_folder(option)) return "_files -/";
    if (!option.choices().empty()) return "(" + joined(option.choices(), " ") + ")";
    const std::string ending = ending_of(option);
    return ending.empty() ? "" : "_files -g \"*." + ending + "(-.)\"";
}

std::string zsh_option(const OptionWords& option) {
    const std::string value_name = option.place.empty() ? option.value : option.place;
    const std::string value = ":" + escaped(value_name, "[]:\\") + ":" + zsh_values(option);
    if (!option.place.empty()) return quoted((option.is_repeated ? "*" : "") + value);
    const std::string rest =
        "[" + escaped(option.about, "[]:\\") + "]" + (option.value.empty() ? "" : value);
    if (option.names.size() == 1) {
        return quoted((option.is_repeated ? "*" : "") + option.names.front() + rest);
    }
    return quoted("(" + joined(option.names, " ") + ")") + "{" + joined(option.names, ",") + "}" +
           quoted(rest);
}

// What fish offers for a value.
std::string fish_values(const OptionWords& option) {
    if (is_folder(option)) return " -x -a '(__fish_complete_directories)'";
    if (!option.choices().empty()) return " -x -a " + quoted(joined(option.choices(), " "));
    const std::string ending = ending_of(option);
    if (ending.empty()) return option.value.empty() ? "" : " -x";
    return " -k -x -a '(__fish_complete_suffix ." + ending + ")'";
}

}  // namespace

std::string bash_completion(const std::vector<CommandWords>& commands) {
    std::string text =
        "# Completion of dapple for bash, written by `dapple completion bash`.\n"
        "_dapple() {\n"
        "    local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]}\n"
        "    if [[ $COMP_CWORD -eq 1 ]]; then\n"
        "        COMPREPLY=($(compgen -W \"" +
        names_of(commands) +
        " --help --version\" -- \"$cur\"))\n"
        "        return\n"
        "    fi\n"
        "    case ${COMP_WORDS[1]} in\n";
    for (const CommandWords& command : commands) text += bash_command(command);
    return text + "    esac\n}\ncomplete -o filenames -F _dapple dapple\n";
}

std::string zsh_completion(const std::vector<CommandWords>& commands) {
    std::string text =
        "#compdef dapple\n# Completion of dapple for zsh, written by `dapple completion zsh`.\n"
        "_dapple() {\n    local -a commands\n    commands=(\n";
    for (const CommandWords& command : commands) {
        text += "        " + quoted(command.name + ":" + escaped(command.about, ":\\")) + "\n";
    }
    text +=
        "    )\n    if (( CURRENT == 2 )); then\n        _describe command commands\n"
        "        return\n    fi\n    shift words\n    (( CURRENT-- ))\n    case $words[1] in\n";
    for (const CommandWords& command : commands) {
        text += "        " + command.name + ")\n            _arguments";
        for (const OptionWords& option : command.options) {
            text += " \\\n                " + zsh_option(option);
        }
        text += "\n            ;;\n";
    }
    return text + "    esac\n}\n_dapple \"$@\"\n";
}

std::string fish_completion(const std::vector<CommandWords>& commands) {
    std::string text =
        "# Completion of dapple for fish, written by `dapple completion fish`.\n"
        "complete -c dapple -f\n";
    for (const CommandWords& command : commands) {
        text += "complete -c dapple -n __fish_use_subcommand -a " + command.name + " -d " +
                quoted(command.about) + "\n";
        const std::string start =
            "complete -c dapple -n '__fish_seen_subcommand_from " + command.name + "'";
        for (const OptionWords& option : command.options) {
            std::string line = start;
            for (const std::string& name : option.names) {
                line += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
            }
            const std::string values = fish_values(option);
            if (!option.place.empty() && values == " -x") continue;  // any text
            text += line + values;
            if (option.place.empty()) text += " -d " + quoted(option.about);
            text += "\n";
        }
    }
    return text;
}

}  // namespace dapple

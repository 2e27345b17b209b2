#include "help_words.h"

#include <map>
#include <set>
#include <string>

namespace dapple {

namespace {

// By the long name of an option, or by the name of what stands without one. Where the value is one
// of a few words, they stand there with | between them.
const std::map<std::string, std::string> kValues = {{"SET", "FILE"},
                                                    {"FILM", "FILE"},
                                                    {"film", "FILE"},
                                                    {"VARIANTS", "FILE"},
                                                    {"TARGET", "WORDS"},
                                                    {"TITLE", "WORDS"},
                                                    {"SHELL", "bash|zsh|fish"},
                                                    {"output", "FOLDER"},
                                                    {"write", "SET"},
                                                    {"seconds", "SECONDS"},
                                                    {"passes", "NUMBER"},
                                                    {"noise", "PERCENT"},
                                                    {"clean-noise", "PERCENT"},
                                                    {"width", "PIXELS"},
                                                    {"footprint", "PIXELS"},
                                                    {"threads", "NUMBER"},
                                                    {"seed", "NUMBER"},
                                                    {"transport", "full|walks|camera|partition"},
                                                    {"until", "HH:MM"},
                                                    {"hours", "HOURS"},
                                                    {"port", "NUMBER"},
                                                    {"memory-gb", "GIGABYTES"},
                                                    {"shard", "I/N"},
                                                    {"PARTS", "FOLDERS"},
                                                    {"variants", "FILE"},
                                                    {"TABLE", "NAME"},
                                                    {"set", "FIXTURE.KEY=VALUE"},
                                                    {"off", "FIXTURE"},
                                                    {"solo", "FIXTURE"},
                                                    {"keep", "FIXTURE"},
                                                    {"room", "SIZE"},
                                                    {"camera", "DISTANCE"},
                                                    {"lens", "LENGTH"},
                                                    {"figure", "HEIGHT"},
                                                    {"move", "THING"},
                                                    {"within", "METRES"},
                                                    {"vary", "WHAT=FROM..TO"},
                                                    {"want", "PLACE.MEASURE=HOW"},
                                                    {"tries", "NUMBER"},
                                                    {"minutes", "MINUTES"},
                                                    {"check", "NUMBER"},
                                                    {"place", "NUMBER"}};

const std::set<std::string> kAdvanced = {
    "threads", "seed", "transport", "footprint", "json", "csv", "raw", "float", "full-size"};

const std::map<std::string, std::string> kExamples = {
    {"new",
     "dapple new \"Old dance hall\"\n"
     "dapple new \"Old dance hall\" --room \"8 x 12 x 4 m\" --camera \"4 m\" --lens 50"},
    {"check", "dapple check hall.toml"},
    {"render",
     "dapple render hall.toml -o out\n"
     "dapple render hall.toml -o out --seconds 20 --width 480    a quick look\n"
     "dapple render hall.toml -o out --noise 2 --resume          stop and go on later"},
    {"desk", "dapple desk hall.toml"},
    {"meter", "dapple meter hall.toml --noise 0.5"},
    {"judge", "dapple judge out/hall.exr\ndapple judge out/hall.exr -o out"},
    {"kit", "dapple kit\ndapple kit fixture\ndapple kit tungsten-150    what it is set to"},
    {"keys", "dapple keys\ndapple keys fixture"},
    {"plan", "dapple plan hall.toml\ndapple plan hall.toml -o out"},
    {"rebalance",
     "dapple rebalance out/hall.exr --set \"key.dimmer=50%\" --off fill -o out/second"},
    {"balance", "dapple balance out/hall.exr \"face = f/4\" \"key:fill = 4\" --write hall.toml"},
    {"search",
     "dapple search hall.toml --move jar --within 0.4 --vary turn=0..15 \\\n"
     "    --want \"back wall.texture=more\" -o out/search\n"
     "dapple search hall.toml -o out/search --place 2 --write hall.toml"},
    {"overnight", "dapple overnight night.toml -o out/night --until 06:30"},
    {"merge", "dapple merge out/night"},
    {"sheet", "dapple sheet out/hall.exr -o out\ndapple sheet out/hall.exr --page"},
    {"completion",
     "dapple completion bash > ~/.local/share/bash-completion/completions/dapple\n"
     "dapple completion zsh > ~/.zfunc/_dapple\n"
     "dapple completion fish > ~/.config/fish/completions/dapple.fish"},
    {"manual", "dapple manual | man -l -"}};

// "--seconds" → "seconds"; "SET" for what stands without a name.
std::string key_of(const CLI::Option& option) {
    return option.get_lnames().empty() ? option.get_single_name() : option.get_lnames().front();
}

std::string indented(const std::string& lines) {
    std::string text = "  ";
    for (const char c : lines) text += c == '\n' ? std::string("\n  ") : std::string(1, c);
    return text;
}

}  // namespace

void add_help_words(CLI::App& app) {
    app.get_formatter()->label("SUBCOMMAND", "COMMAND");
    app.get_formatter()->label("Positionals", "What it needs");
    app.get_formatter()->label("REQUIRED", "");
    for (CLI::App* command : app.get_subcommands(nullptr)) {
        command->group("Commands");
        for (CLI::Option* option : command->get_options()) {
            const std::string key = key_of(*option);
            const auto value = kValues.find(key);
            if (value != kValues.end() && option->get_type_size() > 0) {
                option->type_name(value->second);
            }
            if (kAdvanced.count(key) > 0) option->group("Advanced options");
        }
        const auto examples = kExamples.find(command->get_name());
        if (examples != kExamples.end()) {
            command->footer("Examples:\n" + indented(examples->second));
        }
    }
    app.footer(
        "dapple COMMAND --help tells more of each. A first set: dapple new \"Old dance hall\"");
}

}  // namespace dapple

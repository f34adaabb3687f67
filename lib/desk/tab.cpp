#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/desk/request.hpp>
#include <sectio/desk/tab.hpp>
#include <sectio/desk/trouble.hpp>
#include <sectio/desk/zip.hpp>
#include <sectio/scale/catalogue.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdio>

namespace sectio::desk {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

void say(const Json& json) {
    fmt::print("{}", json.dump(-1, ' ', false, Json::error_handler_t::replace));
}

Json json_of(const Recognised& found) {
    return {{"kind", found.kind}, {"words", found.words}, {"text", found.text}};
}

/// What a piece of work says that fails: in the child, where the desk reads it.
template <typename Does>
Work telling(Does does) {
    return [does](const Progress&) {
        try {
            say(does());
            return 0;
        } catch (const Error& e) {
            fmt::print(stderr, "{}\n", trouble_text(e, nullptr));
            return 2;
        }
    };
}

Json matches_json(const std::string& text) {
    constexpr std::size_t shown = 12;
    Json list = Json::array();
    for (const Match& match : matches_of(text, shown))
        list.push_back({{"id", match.id}, {"name", match.name}, {"kind", match.kind}});
    return list;
}

} // namespace

Tab::Tab(fs::path folder) : folder_(std::move(folder)) {
    Catalogue::installed(); // read once for all work, which may not read its index
    fs::create_directories(folder_ / "things");
    fs::create_directories(folder_ / "work");
}

Tab::~Tab() {
    askings_.clear(); // stops them
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
}

/// A file called `rast` or `31` would be taken for the scale, or for what is typed beside it.
std::string Tab::free_name(std::string_view name) const {
    fs::path safe = safe_file_name(name);
    if (safe.string().find('.') == std::string::npos)
        safe += ".file";
    std::string wanted = safe.string();
    const auto taken = [&] {
        return std::any_of(things_.begin(), things_.end(),
                           [&](const auto& pair) { return pair.second.file == wanted; });
    };
    for (int i = 2; taken(); ++i)
        wanted = fmt::format("{}-{}{}", safe.stem().string(), i, safe.extension().string());
    return wanted;
}

fs::path Tab::place_of(const Thing& thing) const {
    return folder_ / "things" / thing.file;
}

int Tab::put(Thing thing) {
    if (things_.size() >= limits::desk_things)
        throw error(message::desk_full, "", {}, limits::desk_things, "things");
    thing.number = next_++;
    things_[thing.number] = thing;
    return thing.number;
}

int Tab::put_file(const fs::path& from, std::string_view name) {
    Thing thing;
    thing.file = free_name(name);
    const int number = put(thing);
    fs::rename(from, place_of(thing));
    const std::string argument = thing.argument();
    return begin(telling([argument] { return json_of(recognise_file(argument)); }),
                 {nullptr, number, {}, {}});
}

int Tab::put_text(const std::string& text) {
    if (text.size() > limits::desk_text_bytes)
        throw error(message::desk_text_long, "", {}, limits::desk_text_bytes);
    Thing thing;
    thing.text = text;
    const int number = put(thing);
    return begin(telling([text] { return json_of(recognise_text(text)); }),
                 {nullptr, number, {}, {}});
}

void Tab::drop(int number) {
    const Thing thing = this->thing(number);
    if (!thing.file.empty())
        fs::remove(place_of(thing));
    things_.erase(number);
}

int Tab::look(const std::string& text) {
    if (text.size() > limits::desk_text_bytes)
        throw error(message::desk_text_long, "", {}, limits::desk_text_bytes);
    return begin(telling([text] { return matches_json(text); }), {});
}

int Tab::ask(const Asked& asked, const RunCommand& run) {
    const Command command = command_of(asked);
    const std::string out = command.folder ? command.out + ".zip" : command.out;
    const Work work = [command, run, out](const Progress& progress) {
        const int code = run(command.words, progress);
        if (command.folder && fs::is_directory(command.out))
            zip_folder(command.out, out);
        return code;
    };
    return begin(work, {nullptr, 0, out, shell_text(command.words), asked.question});
}

int Tab::keep(int number) {
    const Asking& asking = this->asking(number);
    const fs::path made = asking.job->folder() / asking.out;
    if (asking.out.empty() || !fs::is_regular_file(made))
        throw error(message::desk_unknown, "", {});
    const fs::path copy = folder_ / "kept";
    fs::copy_file(made, copy, fs::copy_options::overwrite_existing);
    return put_file(copy, asking.out);
}

const Thing& Tab::thing(int number) const {
    const auto found = things_.find(number);
    if (found == things_.end())
        throw error(message::desk_unknown, "", {});
    return found->second;
}

const Asking& Tab::asking(int number) const {
    const auto found = askings_.find(number);
    if (found == askings_.end())
        throw error(message::desk_unknown, "", {});
    return found->second;
}

void Tab::stop(int number) {
    asking(number).job->stop();
}

/// The work gets a folder of its own in which the things lie by their names, as in the folder of
/// somebody who types the command; they are the same files once more, not copies.
int Tab::begin(const Work& work, Asking asking) {
    const int number = next_++;
    const fs::path folder = folder_ / "work" / fmt::format("{}", number);
    fs::create_directory(folder);
    for (const auto& [key, thing] : things_)
        if (!thing.file.empty())
            fs::create_hard_link(place_of(thing), folder / thing.file);
    asking.job = std::make_unique<Job>(folder, work);
    askings_[number] = std::move(asking);
    if (askings_.size() > limits::desk_answers) {
        const fs::path oldest = askings_.begin()->second.job->folder();
        askings_.erase(askings_.begin());
        for (const char* const part : {"", ".said", ".trouble"})
            fs::remove_all(oldest.string() + part);
    }
    return number;
}

/// A thing that was recognised learns what it is.
void Tab::settle(Asking& asking) {
    const auto found = things_.find(asking.thing);
    if (found == things_.end() || !found->second.words.empty())
        return;
    Thing& thing = found->second;
    const Json said =
        Json::parse(read_whole(asking.job->said(), limits::table_bytes), nullptr, false);
    if (asking.job->code() == 0 && said.is_object()) {
        thing.kind = said["kind"];
        thing.words = said["words"];
        thing.text = thing.file.empty() ? said["text"].get<std::string>() : "";
    } else {
        thing.words = "not recognised";
    }
}

std::size_t Tab::working() {
    std::size_t count = 0;
    for (auto& [number, asking] : askings_)
        if (asking.job->ended())
            settle(asking);
        else
            ++count;
    return count;
}

std::uintmax_t Tab::bytes() const {
    std::uintmax_t sum = 0;
    for (const auto& [number, thing] : things_)
        if (!thing.file.empty())
            sum += fs::file_size(place_of(thing));
    return sum;
}

} // namespace sectio::desk

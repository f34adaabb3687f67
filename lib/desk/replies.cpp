#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/desk/assets.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/desk/replies.hpp>
#include <sectio/desk/trouble.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

namespace sectio::desk {

namespace {

using Json = nlohmann::json;

/// The page loads its own files and nothing else, and is shown in no other's frame; {} are the
/// answers. (Content Security Policy Level 3.)
constexpr const char* page_policy =
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; frame-src {}; "
    "worker-src 'self'; img-src 'self' data:; media-src 'self' blob:; frame-ancestors 'none'; "
    "base-uri 'none'; form-action 'none'";
/// An answer is a page of its own with its own script. Its origin is another than the desk's, so
/// that it reaches nothing of the desk, and there is no address that it may load. (Without any
/// origin it would be refused the microphone.) {} is the desk.
constexpr const char* answer_policy =
    "sandbox allow-scripts allow-same-origin allow-popups; default-src 'none'; style-src "
    "'unsafe-inline'; script-src 'unsafe-inline'; frame-ancestors {}; base-uri 'none'; form-action "
    "'none'";

/// Tells the desk, whose frame it is in, how high the answer is. {0} is the desk.
constexpr const char* height_script =
    "<script>if (parent !== self) new ResizeObserver(() => parent.postMessage("
    "Math.ceil(document.documentElement.getBoundingClientRect().height), \"{0}\"))"
    ".observe(document.documentElement)</script>\n";

Reply reply(const Json& json) {
    return {200, "application/json", json.dump(-1, ' ', false, Json::error_handler_t::replace)};
}

Json json_of(const Thing& thing) {
    return {{"number", thing.number},
            {"file", thing.file},
            {"text", thing.text},
            {"kind", thing.kind},
            {"words", thing.words}};
}

Json json_of(const Field& field) {
    constexpr const char* kinds[]{"text", "choice", "parts", "flag", "scale"};
    return {{"option", field.option},   {"label", field.label},
            {"choices", field.choices}, {"kind", kinds[static_cast<int>(field.kind)]},
            {"initial", field.initial}, {"hint", field.hint}};
}

Json json_of(const Question& question) {
    Json fields = Json::array();
    for (const Field& field : question.fields)
        fields.push_back(json_of(field));
    return {{"id", question.id},          {"label", question.label}, {"kinds", question.kinds},
            {"least", question.least},    {"most", question.most},   {"fields", fields},
            {"endings", question.endings}};
}

std::string trouble_of(const Asking& asking) {
    const Job& job = *asking.job;
    const std::string text =
        trouble_text(read_whole(job.trouble(), limits::table_bytes), asking.question);
    return text.empty() && job.code() == Job::broken ? std::string(message::desk_work_ended.text)
                                                     : text;
}

const Job& ended_job(const Tab& tab, int number) {
    const Job& job = *tab.asking(number).job;
    if (job.code() == Job::broken)
        throw error(message::desk_unknown, "", {});
    return job;
}

} // namespace

Reply tab_reply(const std::string& id, const Tab& tab, const std::string& answers) {
    Json things = Json::array();
    for (const auto& [number, thing] : tab.things())
        things.push_back(json_of(thing));
    return reply({{"tab", id}, {"things", things}, {"answers", answers}});
}

Reply questions_reply() {
    Json list = Json::array();
    for (const Question& question : questions())
        list.push_back(json_of(question));
    return reply(list);
}

Reply begun_reply(const Tab& tab, int job) {
    return reply({{"job", job}, {"command", tab.asking(job).command}});
}

Reply job_reply(const Tab& tab, int number) {
    const Asking& asking = tab.asking(number);
    Job& job = *asking.job;
    if (!job.ended())
        return reply({{"ended", false}, {"done", job.done()}});
    Json told{{"ended", true}, {"ok", job.code() == 0}, {"trouble", trouble_of(asking)}};
    if (!asking.out.empty())
        told["out"] = asking.out;
    if (asking.thing != 0 && tab.things().contains(asking.thing))
        told["thing"] = json_of(tab.thing(asking.thing));
    if (asking.command.empty() && asking.thing == 0)
        told["said"] = Json::parse(read_whole(job.said(), limits::table_bytes), nullptr, false);
    return reply(told);
}

Reply answer_reply(const Tab& tab, int number, const std::string& desk) {
    Reply page{200, "text/html; charset=utf-8", ""};
    page.file = ended_job(tab, number).said();
    if (std::filesystem::file_size(page.file) <= limits::table_bytes) {
        page.text = read_whole(page.file, limits::table_bytes);
        page.text.insert(std::min(page.text.rfind("</body>"), page.text.size()),
                         fmt::format(height_script, desk));
        page.file.clear();
    }
    page.policy = fmt::format(answer_policy, desk);
    return page;
}

Reply out_reply(const Tab& tab, int number) {
    const Job& job = ended_job(tab, number);
    const std::string& out = tab.asking(number).out;
    if (out.empty() || !std::filesystem::is_regular_file(job.folder() / out))
        throw error(message::desk_unknown, "", {});
    Reply file{200, out.ends_with(".wav") ? "audio/wav" : "application/octet-stream", ""};
    file.file = job.folder() / out;
    file.saved_as = out;
    file.policy = fmt::format(answer_policy, "'none'");
    return file;
}

Reply asset_reply(const std::string& name, const std::string& answers) {
    const Asset* found = asset(name);
    if (!found)
        return trouble_reply(404, "There is nothing here.");
    Reply file{200, std::string(found->type), std::string(found->content)};
    file.policy = fmt::format(page_policy, answers);
    file.microphone = "self \"" + answers + "\"";
    return file;
}

Reply trouble_reply(unsigned status, const std::string& text) {
    Reply told = reply({{"trouble", text}});
    told.status = status;
    return told;
}

Reply done_reply() {
    return reply(Json::object());
}

} // namespace sectio::desk

#pragma once
/// @file
/// Private to lib/desk: what the page is told, as JSON and as files.

#include <sectio/desk/request.hpp>
#include <sectio/desk/tab.hpp>

#include <string>

namespace sectio::desk {

/// {"tab", "things", "answers"}: the last is the address under which answers are shown.
Reply tab_reply(const std::string& id, const Tab& tab, const std::string& answers);
/// All questions with their forms.
Reply questions_reply();
/// {"job", "command"}.
Reply begun_reply(const Tab& tab, int job);
/// {"ended", "done"}, and of ended work {"ok", "trouble", "out"}, with {"thing"} or {"said"}.
Reply job_reply(const Tab& tab, int job);
/// The page that a command has printed, for a frame of the page of origin `desk`.
/// @throws Error desk_unknown
Reply answer_reply(const Tab& tab, int job, const std::string& desk);
/// The file that it has made. @throws Error desk_unknown
Reply out_reply(const Tab& tab, int job);
/// A file of the page itself, whose frames are of the origin `answers`; 404 where there is none.
Reply asset_reply(const std::string& name, const std::string& answers);
/// {"trouble"}.
Reply trouble_reply(unsigned status, const std::string& text);
Reply done_reply();

} // namespace sectio::desk

// What a party has shown: tracks and marks dropped on the page, learnt beside as set. Nothing is
// kept here: the page holds the party file's text and sends it along.
#include <algorithm>

#include "apps/server/store/service.hpp"
#include "lodeway/io/party/party_file.hpp"
#include "lodeway/tasks/learn.hpp"

namespace lodeway::server {

namespace {

constexpr std::size_t most_bytes = 48U << 20U, most_files = 40;

/// `key`: a list of {name, `what`: text}.
Result<std::vector<tasks::LearnBytes::File>> files_at(const Json& body, const char* key,
                                                      const char* what) {
  std::vector<tasks::LearnBytes::File> out;
  if (!body.contains(key)) return out;
  const auto& list = body[key];
  const auto wrong = [&] {
    return fail(FaultCode::bad_input,
                std::string(key) + ": expected a list of at most 40 {name, " + what + "}");
  };
  if (!list.is_array() || list.size() > most_files) return wrong();
  for (const auto& item : list) {
    if (!item.is_object()) return wrong();
    const auto name = text_at(item, "name"), bytes = text_at(item, what);
    if (!name || !bytes) return wrong();
    out.push_back({*name, *bytes});
  }
  return out;
}

/// The place of a word in a list; absent keys leave `target` as it is.
template <class T>
Result<void> take_word(const Json& from, const char* key, std::initializer_list<const char*> words,
                       T& target) {
  if (!from.contains(key)) return {};
  const auto text = text_at(from, key);
  if (!text) return std::unexpected(text.error());
  int place = 0;
  std::string all;
  for (const char* word : words) {
    if (*text == word) {
      target = static_cast<T>(place);
      return {};
    }
    ++place;
    all += (all.empty() ? "" : ", ") + std::string(word);
  }
  return fail(FaultCode::bad_input, std::string(key) + ": expected one of " + all);
}

Answer learn_now(const Request& request) {
  const auto body = body_json(request, most_bytes);
  if (!body) return Answer::fault(body.error());
  tasks::LearnBytes ask;
  if (body->contains("party_file")) {
    const auto text = text_at(*body, "party_file");
    if (!text) return Answer::fault(text.error());
    ask.party = *text;
  }
  auto tracks = files_at(*body, "tracks", "gpx");
  if (!tracks) return Answer::fault(tracks.error());
  auto marks = files_at(*body, "marks", "toml");
  if (!marks) return Answer::fault(marks.error());
  ask.tracks = *std::move(tracks);
  ask.marks = *std::move(marks);
  if (body->contains("refused")) {
    const auto& list = (*body)["refused"];
    if (!list.is_array() || list.size() > 500 ||
        !std::ranges::all_of(list, [](const Json& one) { return one.is_string(); }))
      return Answer::fault(
          {FaultCode::bad_input, "refused: expected a list of at most 500 names of figures"});
    ask.refused = list.get<std::vector<std::string>>();
  }
  const auto as_set = body->value("as_set", Json::object());
  if (!as_set.is_object())
    return Answer::fault({FaultCode::bad_input, "as_set: expected an object"});
  for (const auto& good :
       {take_word(as_set, "skill", {"novice", "practised", "expert"}, ask.table.skill),
        take_word(as_set, "instrument", {"baseplate", "mirror"}, ask.table.instrument),
        take_word(as_set, "visibility", {"clear", "cloud", "night", "snow"}, ask.table.visibility),
        take_word(as_set, "time_model",
                  {"naismith-langmuir", "tobler", "swiss", "din-33466", "irmischer-clarke"},
                  ask.table.model)}) {
    if (!good) return Answer::fault(good.error());
  }
  const auto learnt = tasks::learn_from_bytes(ask);
  if (!learnt) return Answer::fault(learnt.error());
  auto out = Json::parse(tasks::learnt_as_json(*learnt, false));
  out["party_file"] = io::party_file_text(learnt->record);
  return Answer::json(out);
}

}  // namespace

void add_party_routes(Router& router) {
  router.add("POST", "/api/party/learn",
             [](const Request& request, const Pieces&) { return learn_now(request); });
}

}  // namespace lodeway::server

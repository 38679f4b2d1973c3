#pragma once
/// Long work in the background: two at a time, with progress, to be stopped.
#include <any>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "apps/server/http/events.hpp"
#include "apps/server/http/message.hpp"
#include "lodeway/tasks/progress.hpp"

namespace lodeway::server {

/// What work comes to. `result` is kept for the newest jobs only.
struct Outcome {
  std::any result;
  std::string result_url, ground_id;
};
using Work = std::function<Result<Outcome>(tasks::Progress& progress, const std::string& job_id)>;

struct JobAbout {
  std::string kind;  ///< "ground", "ways", "rehearsal", "paper"
  std::string trip_id, ground_id;
  std::int64_t revision = 0;
  /// The question in one text. The same question is not asked twice while its answer is kept.
  std::string question;
};

class Jobs {
 public:
  explicit Jobs(Hub& hub);
  ~Jobs();  ///< stops all, waits
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// The job's id: a new one, or that of the same question. A job of the same kind for the same
  /// trip that is not over is stopped: its answer is out of date. Its only fault: too many
  /// wait; asked again later the same will do.
  [[nodiscard]] Result<std::string> start(JobAbout about, Work work);
  bool stop(const std::string& id);

  /// As Job of web/api.schema.json; null when it is not known (any more).
  [[nodiscard]] Json as_json(const std::string& id);
  [[nodiscard]] Json all();
  [[nodiscard]] std::vector<std::string> not_over();

  /// Null when there is no such job, it is not done, or its answer is no longer kept.
  template <class T>
  [[nodiscard]] std::shared_ptr<const T> result(const std::string& id) {
    const auto any = outcome(id);
    const auto* held = std::any_cast<std::shared_ptr<const T>>(&any);
    return held == nullptr ? nullptr : *held;
  }

  /// The kept answer to a question, whoever asked it; null when there is none.
  template <class T>
  [[nodiscard]] std::shared_ptr<const T> answer_to(const std::string& question) {
    const auto id = answered(question);
    return id.empty() ? nullptr : result<T>(id);
  }

 private:
  [[nodiscard]] std::string answered(const std::string& question);
  enum class State : unsigned char { waiting, running, done, failed, cancelled };
  struct Job;
  class Watch;
  [[nodiscard]] std::any outcome(const std::string& id);
  [[nodiscard]] Json say(const Job& job) const;
  void tell(const Job& job);
  void run();
  void finish(Job& job, Result<Outcome> outcome);
  void forget_old();

  Hub& hub_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, std::shared_ptr<Job>> jobs_;
  std::deque<std::shared_ptr<Job>> waiting_;
  std::deque<std::string> order_;  ///< by start
  bool ending_ = false;
  std::vector<std::thread> workers_;
};

}  // namespace lodeway::server

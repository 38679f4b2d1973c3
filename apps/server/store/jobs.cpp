#include "apps/server/store/jobs.hpp"

#include <algorithm>
#include <array>

#include "apps/server/store/store.hpp"

namespace lodeway::server {

namespace {
using Moment = std::chrono::steady_clock::time_point;
using namespace std::chrono_literals;
constexpr std::size_t workers = 2, most_waiting = 20, most_kept = 60, most_results = 12;
constexpr auto tell_every = 100ms;
constexpr std::array state_names{"waiting", "running", "done", "failed", "cancelled"};
}  // namespace

struct Jobs::Job {
  std::string id;
  JobAbout about;
  Work work;
  State state = State::waiting;
  std::atomic<bool> stop = false;
  double share = -1;
  std::string doing = "waiting";
  Moment begun{}, ended{};
  Outcome outcome;
  std::optional<Fault> fault;
  [[nodiscard]] bool over() const { return state != State::waiting && state != State::running; }
};

/// The work's ear and mouth.
class Jobs::Watch final : public tasks::Progress {
 public:
  Watch(Jobs& jobs, Job& job) : jobs_(jobs), job_(job) {}
  bool go_on(double share, const std::string& doing) override {
    const auto now = std::chrono::steady_clock::now();
    if (now - told_ >= tell_every || doing != doing_) {
      told_ = now;
      doing_ = doing;
      const std::lock_guard lock(jobs_.mutex_);
      job_.share = share;
      job_.doing = doing;
      jobs_.tell(job_);
    }
    return !job_.stop;
  }

 private:
  Jobs& jobs_;
  Job& job_;
  Moment told_{};
  std::string doing_;
};

Jobs::Jobs(Hub& hub) : hub_(hub) {
  for (std::size_t i = 0; i < workers; ++i) workers_.emplace_back([this] { run(); });
}

Jobs::~Jobs() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    for (const auto& [id, job] : jobs_) job->stop = true;
  }
  changed_.notify_all();
  for (auto& worker : workers_) worker.join();
}

Result<std::string> Jobs::start(JobAbout about, Work work) {
  const std::lock_guard lock(mutex_);
  for (const auto& [id, job] : jobs_) {
    const bool answers =
        !job->over() || (job->state == State::done && job->outcome.result.has_value());
    if (!about.question.empty() && job->about.question == about.question && answers && !job->stop)
      return id;
  }
  if (waiting_.size() >= most_waiting)
    return fail(FaultCode::too_large, "much is being worked out already");
  for (const auto& [id, job] : jobs_) {
    if (!about.trip_id.empty() && job->about.trip_id == about.trip_id &&
        job->about.kind == about.kind) {
      job->stop = true;  // whoever waits in the queue is taken out of it by run()
    }
  }
  auto job = std::make_shared<Job>();
  job->id = new_id();
  job->about = std::move(about);
  job->work = std::move(work);
  jobs_[job->id] = job;
  order_.push_back(job->id);
  waiting_.push_back(job);
  tell(*job);
  forget_old();
  changed_.notify_one();
  return job->id;
}

bool Jobs::stop(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end()) return false;
  Job& job = *found->second;
  job.stop = true;
  if (job.state == State::waiting) {
    std::erase_if(waiting_, [&](const auto& w) { return w->id == id; });
    job.state = State::cancelled;
    job.doing = "stopped";
    tell(job);
  }
  return true;
}

void Jobs::run() {
  for (;;) {
    std::shared_ptr<Job> job;
    {
      std::unique_lock lock(mutex_);
      changed_.wait(lock, [&] { return ending_ || !waiting_.empty(); });
      if (ending_) return;
      job = waiting_.front();
      waiting_.pop_front();
      job->begun = std::chrono::steady_clock::now();
      job->state = State::running;
      job->doing = "beginning";
      tell(*job);
    }
    Result<Outcome> outcome = fail(FaultCode::cancelled, "stopped");
    if (!job->stop) {
      Watch watch(*this, *job);
      try {
        outcome = job->work(watch, job->id);
      } catch (const std::bad_alloc&) {
        outcome = fail(FaultCode::too_large, "out of memory");
      } catch (const std::exception& e) {
        outcome = fail(FaultCode::io_failed, e.what());
      }
    }
    const std::lock_guard lock(mutex_);
    finish(*job, std::move(outcome));
  }
}

void Jobs::finish(Job& job, Result<Outcome> outcome) {
  job.ended = std::chrono::steady_clock::now();
  job.work = nullptr;
  if (outcome && !job.stop) {
    job.outcome = *std::move(outcome);
    if (!job.outcome.ground_id.empty()) job.about.ground_id = job.outcome.ground_id;
    job.state = State::done;
    job.share = 1;
    job.doing = "done";
  } else if (job.stop || outcome.error().code == FaultCode::cancelled) {
    job.state = State::cancelled;
    job.doing = "stopped";
  } else {
    job.fault = outcome.error();
    job.state = State::failed;
    job.doing = "failed";
  }
  tell(job);
  forget_old();
}

void Jobs::forget_old() {
  std::size_t results = 0;
  for (auto id = order_.rbegin(); id != order_.rend(); ++id) {
    Job& job = *jobs_[*id];
    if (job.state == State::done && job.outcome.result.has_value() && ++results > most_results)
      job.outcome.result.reset();
  }
  for (auto id = order_.begin(); order_.size() > most_kept && id != order_.end();) {
    if (!jobs_[*id]->over()) {
      ++id;
      continue;
    }
    jobs_.erase(*id);
    id = order_.erase(id);
  }
}

std::any Jobs::outcome(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = jobs_.find(id);
  return found == jobs_.end() || found->second->state != State::done
             ? std::any{}
             : found->second->outcome.result;
}

std::string Jobs::answered(const std::string& question) {
  const std::lock_guard lock(mutex_);
  for (const auto& [id, job] : jobs_) {
    if (job->about.question == question && job->state == State::done &&
        job->outcome.result.has_value())
      return id;
  }
  return {};
}

Json Jobs::say(const Job& job) const {
  const auto or_null = [](const std::string& text) { return text.empty() ? Json() : Json(text); };
  const auto until = job.over() ? job.ended : std::chrono::steady_clock::now();
  const double seconds = job.begun == Moment{} || until < job.begun
                             ? 0
                             : std::chrono::duration<double>(until - job.begun).count();
  return {{"id", job.id},
          {"kind", job.about.kind},
          {"state", state_names[static_cast<std::size_t>(job.state)]},
          {"share", job.share < 0 ? Json() : Json(job.share)},
          {"doing", job.doing},
          {"seconds", seconds},
          {"trip_id", or_null(job.about.trip_id)},
          {"revision", job.about.trip_id.empty() ? Json() : Json(job.about.revision)},
          {"ground_id", or_null(job.about.ground_id)},
          {"result_url", job.state == State::done ? or_null(job.outcome.result_url) : Json()},
          {"fault", job.fault ? server::as_json(said(*job.fault)) : Json()}};
}

void Jobs::tell(const Job& job) {
  hub_.tell("job " + job.id, Json{{"type", "job"}, {"job", say(job)}}.dump(
                                 -1, ' ', false, Json::error_handler_t::replace));
}

Json Jobs::as_json(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = jobs_.find(id);
  return found == jobs_.end() ? Json() : say(*found->second);
}

Json Jobs::all() {
  const std::lock_guard lock(mutex_);
  auto out = Json::array();
  for (auto id = order_.rbegin(); id != order_.rend(); ++id) out.push_back(say(*jobs_[*id]));
  return out;
}

std::vector<std::string> Jobs::not_over() {
  const std::lock_guard lock(mutex_);
  std::vector<std::string> out;
  for (const auto& id : order_) {
    if (!jobs_[id]->over()) out.push_back(id);
  }
  return out;
}

}  // namespace lodeway::server

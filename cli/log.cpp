#include "log.hpp"

#include <spdlog/sinks/rotating_file_sink.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

#include <cstdlib>

#include "command.hpp"
#include "user_folder.hpp"

namespace exworks::cli {

namespace {

constexpr std::size_t largest_file = 1024 * 1024, files_kept = 3;

struct Log {
  std::shared_ptr<spdlog::logger> logger;
  bool json = false;
};

/// One a process: whatever is noted comes from the one command that it runs.
Log& the_log() {
  static Log log;
  return log;
}

spdlog::level::level_enum to_spdlog(LogLevel level) {
  switch (level) {
    case LogLevel::debug: return spdlog::level::debug;
    case LogLevel::info: return spdlog::level::info;
    case LogLevel::warning: return spdlog::level::warn;
    case LogLevel::error: return spdlog::level::err;
    case LogLevel::off: break;
  }
  return spdlog::level::off;
}

/// $EXWORKS_LOG, "info" or "info,json", where the command line says nothing.
LogOptions with_environment(LogOptions options) {
  const char* value = std::getenv("EXWORKS_LOG");
  if (value == nullptr || *value == '\0') return options;
  std::string level = value;
  if (level.ends_with(",json")) {
    options.json = true;
    level.resize(level.size() - 5);
  }
  if (options.level.empty()) options.level = level;
  return options;
}

LogLevel level_of(const LogOptions& options) {
  if (options.level.empty()) return options.usual;
  if (const auto level = from_word<LogLevel>(options.level)) return *level;
  throw BadUsage{"$EXWORKS_LOG says '" + options.level + "'; write debug, info, warning, error or off, and ',json' after it for lines of JSON"};
}

/// A folder that can't be written stops no work: what is noted is then told where it can be.
spdlog::sink_ptr sink_of(const LogOptions& options) {
  if (options.to_state_folder) {
    try {
      return std::make_shared<spdlog::sinks::rotating_file_sink_mt>(log_file(), largest_file, files_kept);
    } catch (const spdlog::spdlog_ex&) {
      tell("note: ", log_file(), " can't be written; what the server refuses is told here");
    }
  }
  return std::make_shared<spdlog::sinks::stderr_sink_mt>();
}

std::string fields_as_text(std::initializer_list<LogField> fields) {
  std::string out;
  for (const LogField& f : fields) {
    out += " " + std::string(f.name.text()) + "=";
    if (const Word* word = std::get_if<Word>(&f.value)) out += word->text();
    else out += std::to_string(std::get<std::int64_t>(f.value));
  }
  return out;
}

/// Words of the source hold nothing that JSON would want escaped.
std::string fields_as_json(std::initializer_list<LogField> fields) {
  std::string out;
  for (const LogField& f : fields) {
    out += ",\"" + std::string(f.name.text()) + "\":";
    if (const Word* word = std::get_if<Word>(&f.value)) out += "\"" + std::string(word->text()) + "\"";
    else out += std::to_string(std::get<std::int64_t>(f.value));
  }
  return out;
}

}  // namespace

std::string log_file() {
  return (user_folder("XDG_STATE_HOME", ".local/state").value_or("/.local/state") / "exworks/serve.log").string();
}

void open_log(const LogOptions& of_command) {
  const LogOptions options = with_environment(of_command);
  const LogLevel level = level_of(options);
  Log& log = the_log();
  log = {};
  if (level == LogLevel::off) return;
  log.json = options.json;
  log.logger = std::make_shared<spdlog::logger>("exworks", sink_of(options));
  log.logger->set_level(to_spdlog(level));
  log.logger->flush_on(spdlog::level::debug);
  log.logger->set_pattern(log.json ? R"({"at":"%Y-%m-%dT%H:%M:%S.%eZ","level":"%l",%v})" : "%Y-%m-%dT%H:%M:%S.%eZ %l %v", spdlog::pattern_time_type::utc);
}

void log(LogLevel level, Word what, std::initializer_list<LogField> fields) {
  const Log& log = the_log();
  if (!log.logger || !log.logger->should_log(to_spdlog(level))) return;
  const std::string name(what.text());
  log.logger->log(to_spdlog(level), "{}", log.json ? "\"what\":\"" + name + "\"" + fields_as_json(fields) : name + fields_as_text(fields));
}

}  // namespace exworks::cli

#include <csignal>

#include "base/file.hpp"
#include "command.hpp"
#include "options/parse.hpp"

int main(int argc, char** argv) {
  using namespace exworks::cli;
  // A file that grows beyond what is allowed is an error of writing, not the end of the program.
  std::signal(SIGXFSZ, SIG_IGN);
  Action action;
  if (const auto over = parse(argc, argv, action)) return *over;
  try {
    return action();
  } catch (const BadUsage& b) {
    tell(b.what);
    return bad_usage;
  } catch (const BadInput&) {
    return bad_input;
  } catch (const exworks::Mistakes& m) {
    print(m.found, true);
    return bad_input;
  } catch (const exworks::FileError& e) {
    tell(e.what, "; ", e.remedy);
    return cannot_read_or_write;
  } catch (const std::exception& e) {
    tell("exworks: ", e.what(), "; this is a fault of the program: please report it with the command that you ran");
    return cannot_read_or_write;
  }
}

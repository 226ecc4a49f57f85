// A file that is not there until it is whole.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace tub::app {

/// How a draft lives until it is put in its place.
enum class DraftName {
  none,           ///< without a name, where the file system can (O_TMPFILE): a kill leaves nothing
  from_the_start  ///< under a name of its own, as on any file system
};

/// A file beside its place, to be moved there when it is whole. Whatever kills the program, the old
/// file or the new one is there; what a kill leaves behind is locked by nobody, and
/// `remove_left_drafts` knows it.
class Draft {
 public:
  /// Writes all bytes. A file that is there already gives the draft its mode, owner and group.
  ///
  /// path:   a link is followed, and stays
  /// Throws: Error (Fault::machine) with the path and the system's reason
  Draft(const std::string& path, std::string_view bytes, DraftName name = DraftName::none);
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  ~Draft();

  /// Throws: Error (Fault::machine) with the path and the system's reason
  void move_into_place();

  /// Where it is: empty, or ended by a slash.
  const std::string& folder() const { return folder_; }
  /// What of the old file could not be kept, with the system's reason.
  const std::vector<Diagnostic>& warnings() const { return warnings_; }

 private:
  Draft(const std::string& path, DraftName name);
  void discard();
  void open(DraftName name);
  bool open_named();
  void keep_old_status();
  void write(std::string_view bytes);
  bool give_name();
  void warn(std::string_view what, int reason);

  std::string place_;  // the file itself, links followed
  std::string shown_;  // as the user named it
  std::string folder_;
  std::string name_;  // of the draft; empty while it has none
  int descriptor_ = -1;
  std::vector<Diagnostic> warnings_;
};

/// Removes the drafts in a folder that runs which were killed have left there.
void remove_left_drafts(const std::string& folder);

}  // namespace tub::app

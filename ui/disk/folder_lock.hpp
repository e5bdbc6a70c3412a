#pragma once
#include <string>

namespace shutlane {

/// Holds a folder as long as it lives, so that reading, changing and writing a file in it is one step among
/// several programs. Waits for another one that holds it. Makes the folder where it is missing; where it
/// can't be held, nothing is held.
class FolderLock {
 public:
  explicit FolderLock(const std::string& folder);
  ~FolderLock();
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;

 private:
  int file_ = -1;
};

}  // namespace shutlane

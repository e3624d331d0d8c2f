// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The operating system as the use cases see it, for Linux. Knows no record and no rulebook.
#include "station/system.h"

#include "station/file_kind.h"
#include "station/zone_rule.h"
#include "store/operating_system.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <date/tz.h>
#include <fcntl.h>
#include <map>
#include <memory>
#include <sstream>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>
#include <vector>

namespace station::system {

namespace {

constexpr int lastYear = 2100;
constexpr off_t mostReserved = 1LL << 30;  // bytes: a size that is told may be wrong

// A file descriptor that closes itself.
class File {
public:
    explicit File(int descriptor) : m_descriptor(descriptor) {}
    ~File() {
        if (m_descriptor >= 0) {
            ::close(m_descriptor);
        }
    }
    File(const File&) = delete;
    File& operator=(const File&) = delete;

    [[nodiscard]] bool isOpen() const { return m_descriptor >= 0; }
    [[nodiscard]] int descriptor() const { return m_descriptor; }

private:
    int m_descriptor;
};

FileTrouble troubleOf(int error) {
    switch (error) {
        case ENOENT:
        case ENOTDIR: return FileTrouble::NotFound;
        case EACCES:
        case EPERM:
        case EROFS: return FileTrouble::NotPermitted;
        case EISDIR: return FileTrouble::NotAFile;
        case EEXIST: return FileTrouble::Exists;
        case EFBIG:
        case ENOSPC:
        case EDQUOT: return FileTrouble::DiskFull;
        default: return FileTrouble::Io;
    }
}

// The first of these variables of the environment that says something; empty if none does.
std::string firstSet(std::initializer_list<const char*> variables) {
    for (const auto* variable : variables) {
        const auto* value = std::getenv(variable);
        if (value != nullptr && *value != '\0') {
            return value;
        }
    }
    return "";
}

tl::unexpected<FileTrouble> lastTrouble() {
    return tl::unexpected(troubleOf(errno));
}

std::chrono::sys_seconds yearStart(int year) {
    return std::chrono::sys_days{std::chrono::year{year} / std::chrono::January / 1};
}

// The library stops at the last transition that the file lists, often of 2037; the rule by which
// the zone goes on is the last line of the file.
void addByRule(std::string_view name, std::vector<rules::ZoneTransition>& transitions) {
    const auto bytes = readFile(std::filesystem::path("/usr/share/zoneinfo") / name);
    if (!bytes || !bytes->ends_with('\n')) {
        return;
    }
    std::string_view text(*bytes);
    text.remove_suffix(1);
    const auto rule = parseZoneRule(text.substr(text.rfind('\n') + 1));
    if (!rule) {
        return;
    }
    const auto last = transitions.back().from;
    const auto day = std::chrono::floor<std::chrono::days>(
        std::chrono::sys_time<std::chrono::milliseconds>(std::chrono::milliseconds(last.ms)));
    const auto year = static_cast<int>(std::chrono::year_month_day(day).year());
    for (const auto& transition : transitionsOf(*rule, year, lastYear)) {
        if (transition.from > last) {
            transitions.push_back(transition);
        }
    }
}

std::shared_ptr<const rules::Zone> readZone(std::string_view name) {
    if (!mayNameZone(name)) {
        return nullptr;
    }
    const date::time_zone* zone = nullptr;
    try {
        zone = date::locate_zone(name);
    } catch (const std::exception&) {
        return nullptr;  // the database says "not found" by throwing
    }
    std::vector<rules::ZoneTransition> transitions;
    const auto end = yearStart(lastYear + 1);
    for (auto from = yearStart(1970); from < end;) {
        const auto info = zone->get_info(from);
        const auto fromMs = std::chrono::milliseconds{from.time_since_epoch()}.count();
        transitions.push_back({{fromMs},
                               {std::chrono::milliseconds{info.offset}.count()},
                               info.abbrev});
        if (info.end <= from) {
            break;
        }
        from = info.end;
    }
    addByRule(name, transitions);
    return std::make_shared<const rules::Zone>(std::string(name), std::move(transitions));
}

// Writes all bytes and waits until they are on the disk.
bool writeWhole(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const auto written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written < 0) {
            return false;
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return ::fsync(descriptor) == 0;
}

// Waits until the names in it are on the disk. One that may be written into and not be read cannot
// be waited for.
bool flushFolder(const std::filesystem::path& folder) {
    const auto error = store::system::flush(folder.empty() ? "." : folder);
    return !error || error == std::errc::permission_denied;
}

FileKind kindIn(const std::filesystem::file_status& status) {
    switch (status.type()) {
        case std::filesystem::file_type::none:
        case std::filesystem::file_type::not_found: return FileKind::None;
        case std::filesystem::file_type::regular: return FileKind::Plain;
        case std::filesystem::file_type::directory: return FileKind::Folder;
        default: return FileKind::Other;
    }
}

}  // namespace

std::optional<SinceStart> SystemClock::sinceStart() const {
    // A file of /proc has no size, so it is read to its end.
    const File file(::open("/proc/sys/kernel/random/boot_id", O_RDONLY | O_CLOEXEC));
    std::array<char, 64> name{};
    const auto length = file.isOpen() ? ::read(file.descriptor(), name.data(), name.size()) : -1;
    timespec span{};
    if (length <= 0 || ::clock_gettime(CLOCK_BOOTTIME, &span) != 0) {
        return std::nullopt;
    }
    std::string start(name.data(), static_cast<std::size_t>(length));
    start.erase(start.find_last_not_of('\n') + 1);
    return SinceStart{start, {span.tv_sec * 1000 + span.tv_nsec / 1'000'000}};
}

logbook::Instant SystemClock::now() const {
    const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    return {std::chrono::milliseconds{now.time_since_epoch()}.count()};
}

rules::ZoneSource systemZones() {
    using Zones = std::map<std::string, std::shared_ptr<const rules::Zone>, std::less<>>;
    return [zones = std::make_shared<Zones>()](std::string_view name) {
        auto found = zones->find(name);
        if (found == zones->end()) {
            found = zones->emplace(std::string(name), readZone(name)).first;
        }
        return found->second;
    };
}

std::string loginName() {
    const auto name = firstSet({"LOGNAME", "USER"});
    return name.empty() ? "unknown" : name;
}

std::vector<std::string> localesWanted() {
    const auto locale = firstSet({"LC_ALL", "LC_MESSAGES", "LANG"});
    const auto name = locale.substr(0, locale.find_first_of("._@"));
    if (name == "C" || name == "POSIX") {
        return {locale};
    }
    std::istringstream list(firstSet({"LANGUAGE"}));
    std::vector<std::string> wanted;
    for (std::string each; std::getline(list, each, ':');) {
        wanted.push_back(each);
    }
    wanted.push_back(locale);
    return wanted;
}

bool exists(const std::filesystem::path& path) {
    std::error_code error;
    return std::filesystem::exists(path, error);
}

FileKind kindOf(const std::filesystem::path& path) {
    std::error_code error;
    return kindIn(std::filesystem::symlink_status(path, error));
}

FileKind kindBehind(const std::filesystem::path& path) {
    std::error_code error;
    return kindIn(std::filesystem::status(path, error));
}

bool isInWayOfFolder(const std::filesystem::path& path) {
    const auto kind = kindBehind(path);
    return kind == FileKind::Plain || kind == FileKind::Other;
}

bool isSideName(const std::filesystem::path& path) {
    const auto name = path.filename().string();
    return std::ranges::any_of(std::array{"-journal", "-wal", "-shm", ".holder", ".backups"},
                               [&](std::string_view ending) { return name.ends_with(ending); });
}

std::optional<FileIdentity> identityOf(const std::filesystem::path& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) {
        return std::nullopt;
    }
    return FileIdentity{status.st_dev, status.st_ino};
}

std::string homeOf(const std::filesystem::path& path) {
    auto computer = readFile("/etc/machine-id").value_or("");
    if (computer.empty()) {
        std::array<char, 256> name{};
        (void)::gethostname(name.data(), name.size() - 1);
        computer = name.data();
    }
    std::error_code error;
    const auto full = std::filesystem::weakly_canonical(path, error);
    return computer + '\n' + (error ? path : full).string();
}

tl::expected<std::string, FileTrouble> readFile(const std::filesystem::path& path,
                                                 std::uintmax_t mostBytes) {
    // A pipe that nobody writes to would be waited for.
    const File file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (!file.isOpen()) {
        return lastTrouble();
    }
    struct stat status {};
    if (::fstat(file.descriptor(), &status) != 0) {
        return lastTrouble();
    }
    if (S_ISDIR(status.st_mode)) {
        return tl::unexpected(FileTrouble::NotAFile);
    }
    if (!S_ISREG(status.st_mode)) {
        return tl::unexpected(FileTrouble::NoPlainFile);
    }
    std::string bytes;
    bytes.reserve(static_cast<std::size_t>(std::clamp<off_t>(status.st_size, 0, mostReserved)));
    std::vector<char> buffer(1 << 16);
    while (true) {
        const auto count = ::read(file.descriptor(), buffer.data(), buffer.size());
        if (count < 0 && errno == EINTR) {
            continue;
        }
        if (count < 0) {
            return lastTrouble();
        }
        if (count == 0) {
            return bytes;
        }
        bytes.append(buffer.data(), static_cast<std::size_t>(count));
        if (bytes.size() > mostBytes) {
            return tl::unexpected(FileTrouble::TooLong);
        }
    }
}

tl::expected<void, FileTrouble> writeNewFile(const std::filesystem::path& path,
                                             std::string_view bytes) {
    std::filesystem::path folder = path.parent_path();
    if (folder.empty()) {
        folder = ".";
    }
    auto pattern = (folder / ".airmuster-XXXXXX").string();
    const File file(::mkstemp(pattern.data()));
    if (!file.isOpen()) {
        return lastTrouble();
    }
    // A link refuses to take the place of a file, which a rename would not.
    const bool done = ::fchmod(file.descriptor(), 0644) == 0 &&
                      writeWhole(file.descriptor(), bytes) &&
                      ::link(pattern.c_str(), path.c_str()) == 0;
    const int error = errno;
    ::unlink(pattern.c_str());
    if (!done) {
        return tl::unexpected(troubleOf(error));
    }
    // What is told not to be there is not left there either, to stand in the way of another try.
    if (!flushFolder(folder)) {
        ::unlink(path.c_str());
        return tl::unexpected(FileTrouble::Io);
    }
    return {};
}

tl::expected<void, FileTrouble> replaceFile(const std::filesystem::path& from,
                                            const std::filesystem::path& to) {
    if (::rename(from.c_str(), to.c_str()) != 0) {
        return lastTrouble();
    }
    // Where the disk does not keep it each of the two may have its name from before.
    (void)flushFolder(to.parent_path());
    return {};
}

bool makeFolder(const std::filesystem::path& path) {
    if (::mkdir(path.c_str(), S_IRWXU) != 0) {
        std::error_code error;
        return std::filesystem::is_directory(path, error);
    }
    const auto whole = path.has_filename() ? path : path.parent_path();
    if (flushFolder(whole.parent_path())) {
        return true;
    }
    // So that it is made, and waited for, the next time.
    return ::rmdir(path.c_str()) != 0;
}

std::vector<std::string> namesIn(const std::filesystem::path& folder) {
    std::vector<std::string> names;
    std::error_code error;
    for (std::filesystem::directory_iterator entry(folder, error), end; !error && entry != end;
         entry.increment(error)) {
        names.push_back(entry->path().filename().string());
    }
    return names;
}

// Linux counts threads one by one here. Where it refuses, the thread is as urgent as before.
void giveWay(Way way) {
    const int niceness = way == Way::ToPainting ? 4 : 10;
    const auto thread = static_cast<id_t>(::gettid());
    if (::getpriority(PRIO_PROCESS, thread) < niceness) {
        (void)::setpriority(PRIO_PROCESS, thread, niceness);
    }
}

void removeFile(const std::filesystem::path& path) {
    std::error_code error;
    std::filesystem::remove(path, error);
}

}  // namespace station::system

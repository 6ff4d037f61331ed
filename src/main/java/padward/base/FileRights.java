package padward.base;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.AclFileAttributeView;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Set;

/**
 * Gives a file that replaces another the permissions and, where possible, the owner of that one.
 */
final class FileRights {
    private static final Set<OpenOption> NEW =
            Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);

    private FileRights() {}

    /** Makes a file that nobody can read who cannot read the one that it will replace. */
    static FileChannel create(Path part, Path replaced) throws IOException {
        PosixFileAttributeView old = posix(replaced);
        if (old == null || !Files.exists(replaced)) {
            return FileChannel.open(part, NEW);
        }
        Set<PosixFilePermission> rights = EnumSet.of(PosixFilePermission.OWNER_WRITE);
        rights.addAll(old.readAttributes().permissions());
        FileAttribute<?> first = PosixFilePermissions.asFileAttribute(rights);
        return FileChannel.open(part, NEW, first);
    }

    /** Copies what the system lets this user copy. */
    static void copy(Path replaced, Path part) throws IOException {
        PosixFileAttributeView from = posix(replaced);
        PosixFileAttributeView to = posix(part);
        if (from != null && to != null) {
            PosixFileAttributes old = from.readAttributes();
            attempt(() -> to.setGroup(old.group()));
            attempt(() -> to.setOwner(old.owner()));
            attempt(() -> to.setPermissions(old.permissions()));
            return;
        }
        AclFileAttributeView listed =
                Files.getFileAttributeView(replaced, AclFileAttributeView.class);
        AclFileAttributeView list = Files.getFileAttributeView(part, AclFileAttributeView.class);
        if (listed != null && list != null) {
            attempt(() -> list.setAcl(listed.getAcl()));
            attempt(() -> list.setOwner(listed.getOwner()));
        }
    }

    private static PosixFileAttributeView posix(Path file) {
        return Files.getFileAttributeView(file, PosixFileAttributeView.class);
    }

    private interface Step {
        void run() throws IOException;
    }

    private static void attempt(Step step) {
        try {
            step.run();
        } catch (IOException | UnsupportedOperationException notAllowed) {
            // Only the superuser gives files away; the file's contents matter more.
        }
    }
}

package padward.hostile.disk;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;

/**
 * Which of the operations that change files goes wrong, and how. One for the whole process, as a
 * process has one disk.
 */
final class Fate {
    /** What happens at the chosen operation. */
    enum Kind {
        /** Nothing: operations are only counted. */
        NONE,
        /** The program ends: this operation is half done, and none after it is done at all. */
        KILL,
        /** The disk is full from here on: nothing can be written or made, all else can be done. */
        FULL,
        /** Files can be read only from here on. */
        DENIED
    }

    /** What a killed program throws: its files change no more, whatever it still does. */
    static final class Killed extends Error {
        private static final long serialVersionUID = 1;
    }

    private static Kind kind = Kind.NONE;
    private static int chosen;
    private static int count;

    private Fate() {}

    static synchronized void begin(Kind what, int operation) {
        kind = what;
        chosen = operation;
        count = 0;
    }

    /** Ends what was begun; how many operations there were. */
    static synchronized int end() {
        kind = Kind.NONE;
        return count;
    }

    /**
     * An operation that changes a file is about to be done.
     *
     * @param grows whether it needs space on the disk
     * @return whether it is to be half done before the program ends
     */
    static synchronized boolean meet(String file, boolean grows) throws IOException {
        count++;
        if (kind == Kind.NONE || count < chosen) {
            return false;
        }
        switch (kind) {
            case KILL -> {
                if (count == chosen) {
                    return true;
                }
                throw new Killed();
            }
            case FULL -> {
                if (grows) {
                    throw new FileSystemException(file, null, "No space left on device");
                }
            }
            default -> throw new AccessDeniedException(file);
        }
        return false;
    }

    /** The same for an operation that is done or not, but never half. */
    static void meetWhole(String file, boolean grows) throws IOException {
        if (meet(file, grows)) {
            throw new Killed();
        }
    }
}

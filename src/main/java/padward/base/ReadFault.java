package padward.base;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;

/** Why a file could not be read, in the user's words. */
public final class ReadFault {
    private ReadFault() {}

    /** What was found instead of a file that can be read, as a noun phrase. */
    public static String found(IOException fault) {
        String message = String.valueOf(fault.getMessage());
        String reason =
                fault instanceof FileSystemException system && system.getReason() != null
                        ? system.getReason()
                        : message;
        if (reason.contains("Is a directory")) {
            return "a folder";
        }
        if (fault instanceof NoSuchFileException
                || fault instanceof FileNotFoundException
                || reason.contains("Not a directory")) {
            return "no such file";
        }
        if (fault instanceof NotDirectoryException) {
            return "a file";
        }
        if (fault instanceof AccessDeniedException) {
            return "no permission to read it";
        }
        if (fault instanceof CharacterCodingException) {
            return "bytes that are not UTF-8";
        }
        return reason;
    }

    /** The fault as it is reported. */
    public static BadInput of(String source, IOException fault) {
        String expected =
                fault instanceof CharacterCodingException
                        ? "text in UTF-8"
                        : "a file that can be read";
        return new BadInput(source, "", expected, found(fault));
    }
}

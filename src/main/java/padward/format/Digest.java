package padward.format;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import padward.base.BadInput;
import padward.design.Design;

/** SHA-256 digests (FIPS 180-4), as hexadecimal digits. */
public final class Digest {
    private static final int CHUNK = 1 << 16;

    private Digest() {}

    /**
     * The digest of a file's bytes.
     *
     * @throws BadInput when it cannot be read
     */
    public static String of(Path file) throws BadInput {
        MessageDigest digest = sha256();
        byte[] chunk = new byte[CHUNK];
        try (InputStream in = Files.newInputStream(file)) {
            for (int count = in.read(chunk); count > 0; count = in.read(chunk)) {
                digest.update(chunk, 0, count);
            }
        } catch (IOException fault) {
            throw new BadInput(
                    file.toString(), "", "a file that can be read", "" + fault.getMessage());
        }
        return HexFormat.of().formatHex(digest.digest());
    }

    /** The digest of a design as it would be written, whatever file it came from. */
    public static String of(Design design) throws BadInput {
        try {
            Path file = Files.createTempFile("padward", ".json");
            try {
                DesignWriter.write(design, file, "fabric", "");
                return of(file);
            } finally {
                Files.deleteIfExists(file);
            }
        } catch (IOException fault) {
            throw new BadInput("temporary folder", "", "room for a file", "" + fault.getMessage());
        }
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("every JDK has SHA-256", impossible);
        }
    }
}

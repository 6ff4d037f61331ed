package padward.format.source;

import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import padward.base.BadInput;
import padward.base.OrderMark;
import padward.base.Progress;

/** Opens sources as text: UTF-8, unpacked when it is gzip data, without a byte order mark. */
public final class TextSource {
    private static final int BUFFER = 1 << 16;

    private TextSource() {}

    /**
     * Opens a source; the caller closes the reader. Bytes that are not UTF-8 make the reader throw,
     * which {@link IoFaults#describe} puts into words; so does a cancelled progress, with {@link
     * java.util.concurrent.CancellationException}.
     *
     * @throws BadInput when it cannot be opened
     */
    public static Reader open(Source source, Progress progress) throws BadInput {
        InputStream raw = null;
        try {
            raw = new MeteredStream(source.open(), source, progress);
            InputStream plain =
                    source.zipped()
                            ? new GzipStream(raw, BUFFER)
                            : new BufferedInputStream(raw, BUFFER);
            return withoutMark(plain);
        } catch (IOException e) {
            closeQuietly(raw);
            throw IoFaults.describe(source, e);
        }
    }

    private static Reader withoutMark(InputStream bytes) throws IOException {
        BufferedReader text =
                new BufferedReader(
                        new InputStreamReader(
                                bytes,
                                StandardCharsets.UTF_8
                                        .newDecoder()
                                        .onMalformedInput(CodingErrorAction.REPORT)
                                        .onUnmappableCharacter(CodingErrorAction.REPORT)),
                        BUFFER);
        OrderMark.skip(text);
        return text;
    }

    private static void closeQuietly(InputStream stream) {
        try {
            if (stream != null) {
                stream.close();
            }
        } catch (IOException e) {
            // the fault that led here is reported
        }
    }
}

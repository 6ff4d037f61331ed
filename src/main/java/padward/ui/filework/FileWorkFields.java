package padward.ui.filework;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.WholeFile;

/** Reads the fields of the dialogs. A field that is at fault is called by its label. */
final class FileWorkFields {
    private FileWorkFields() {}

    /**
     * A file or folder.
     *
     * @throws BadInput when the field is empty, or no name of a file
     */
    static Path path(String label, String text) throws BadInput {
        return optional(label, text)
                .orElseThrow(() -> new BadInput(label, "", "a file or folder", "nothing"));
    }

    /**
     * A file that can be left out.
     *
     * @throws BadInput when the field is no name of a file
     */
    static Optional<Path> optional(String label, String text) throws BadInput {
        try {
            return text.isBlank() ? Optional.empty() : Optional.of(Path.of(text.strip()));
        } catch (InvalidPathException wrong) {
            throw new BadInput(label, "", "the name of a file", "“" + text.strip() + "”");
        }
    }

    /**
     * A file to write.
     *
     * @param inputs what is read, which is never written
     * @param open what is open, which is never written either
     * @throws BadInput when it cannot be written there
     */
    static Path output(String label, String text, List<Path> inputs, OpenFiles open)
            throws BadInput {
        Path output = path(label, text);
        if (Files.isDirectory(output)) {
            throw new BadInput(label, "", "the name of a file", "a folder, “" + output + "”");
        }
        Path folder = output.toAbsolutePath().getParent();
        if (!Files.isDirectory(folder)) {
            throw new BadInput(label, "", "a file in an existing folder", "“" + output + "”");
        }
        for (Path input : inputs) {
            if (WholeFile.isSame(output, input)) {
                throw new BadInput(
                        label, "", "a file other than those that are read", "“" + output + "”");
            }
        }
        open.check(label, output);
        return output;
    }

    /**
     * Pairs such as {@code D0 = J1.2, D1 = J1.4}.
     *
     * @throws BadInput when a part is no pair
     */
    static Map<String, String> pairs(String label, String text) throws BadInput {
        return pairs(label, text, "D0 = J1.2, D1 = J1.4");
    }

    /**
     * Frequencies of clocks, MHz, such as {@code clk12 = 12.5, clk50 = 50}.
     *
     * @throws BadInput when a part is no pair of a name and a number
     */
    static Map<String, Double> frequencies(String label, String text) throws BadInput {
        Map<String, Double> frequencies = new LinkedHashMap<>();
        for (Map.Entry<String, String> pair :
                pairs(label, text, "clk12 = 12.5, clk50 = 50").entrySet()) {
            try {
                frequencies.put(pair.getKey(), Double.valueOf(pair.getValue()));
            } catch (NumberFormatException none) {
                throw new BadInput(
                        label, pair.getKey(), "a frequency in MHz", "“" + pair.getValue() + "”");
            }
        }
        return frequencies;
    }

    private static Map<String, String> pairs(String label, String text, String example)
            throws BadInput {
        Map<String, String> pairs = new LinkedHashMap<>();
        for (String part : text.isBlank() ? new String[0] : text.split(",")) {
            int at = part.indexOf('=');
            String name = at < 0 ? "" : part.substring(0, at).strip();
            String value = part.substring(at + 1).strip();
            if (name.isEmpty() || value.isEmpty()) {
                throw new BadInput(label, "", "pairs such as " + example, "“" + part.strip() + "”");
            }
            pairs.put(name, value);
        }
        return pairs;
    }
}

package padward.format.design;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;
import padward.format.form.FileForm;
import padward.format.form.IntKind;
import padward.format.form.Kinds;
import padward.format.json.FileHeader;
import padward.format.source.Source;

/** Reads boards from JSON files. */
public final class BoardReader {
    private BoardReader() {}

    /**
     * Reads a board.
     *
     * @param fabric the fabric whose pads the board wires
     * @throws BadInput when the file cannot be read or is not a board for this fabric
     */
    public static Board read(Path file, Fabric fabric, Progress progress) throws BadInput {
        return read(Source.of(file), fabric, progress);
    }

    /** As {@link #read(Path, Fabric, Progress)}, from any source. */
    public static Board read(Source source, Fabric fabric, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.BOARD);
        PadLookup pads = new PadLookup(fabric);
        return BoardForm.of(pads.byName(), pads.byPackagePin()).read(source, progress);
    }

    /**
     * Reads a board without a fabric: everything is checked except whether its pads exist.
     *
     * @return the number of pads described
     */
    public static int count(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.BOARD);
        return withoutFabric().read(source, progress).wirings().size();
    }

    /** The text of the JSON Schema of boards. */
    public static String schema() {
        return withoutFabric().schema().toFile("Padward board");
    }

    private static FileForm<Board> withoutFabric() {
        Map<String, Integer> numbers = new HashMap<>();
        return BoardForm.of(anyName(numbers, "pad "), anyName(numbers, "pin "));
    }

    private static IntKind anyName(Map<String, Integer> numbers, String prefix) {
        return Kinds.named(
                in -> numbers.computeIfAbsent(prefix + in.name(), n -> numbers.size()),
                number -> "");
    }
}

package padward.format.ledger;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.format.json.FileHeader;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Two designs to be compared, each from a design's file or from a ledger's.
 *
 * @param before the first
 * @param after the second, on a fabric with the same names
 */
public record ComparedDesigns(Design before, Design after) {
    /**
     * Reads both. A ledger means the design that it results in: on the other file, if that is a
     * design; else on {@code base}, or on the design that it names, in the ledger's folder.
     *
     * @throws BadInput when a file is at fault, a ledger does not fit, or the fabrics differ
     */
    public static ComparedDesigns read(Path one, Path other, Optional<Path> base, Progress progress)
            throws BadInput {
        boolean firstIsLedger = isLedger(one);
        boolean secondIsLedger = isLedger(other);
        Design before =
                firstIsLedger
                        ? given(one, baseFor(one, other, secondIsLedger, base), progress)
                        : read(one, progress);
        Design after =
                secondIsLedger
                        ? given(other, baseFor(other, one, firstIsLedger, base), progress)
                        : read(other, progress);
        check(before.fabric(), after.fabric(), other);
        return new ComparedDesigns(before, after);
    }

    private static boolean isLedger(Path file) throws BadInput {
        FileHeader head = FileHeader.read(Source.of(file));
        if (!head.format().equals(FileHeader.DESIGN) && !head.format().equals(FileHeader.LEDGER)) {
            throw new BadInput(
                    file.toString(), "$.format", "a design or a ledger", Text.quote(head.format()));
        }
        return head.format().equals(FileHeader.LEDGER);
    }

    private static Design read(Path file, Progress progress) throws BadInput {
        return DesignReader.read(file, progress);
    }

    private static Path baseFor(Path ledger, Path other, boolean otherIsLedger, Optional<Path> base)
            throws BadInput {
        if (base.isPresent()) {
            return base.get();
        }
        if (!otherIsLedger) {
            return other;
        }
        String name = LedgerReader.designOf(ledger);
        Path named = ledger.toAbsolutePath().resolveSibling(name);
        if (!Files.exists(named)) {
            throw new BadInput(
                    ledger.toString(),
                    "$.design",
                    "a design in the ledger's folder, or --design",
                    Text.quote(name) + ", which is not there");
        }
        return named;
    }

    private static Design given(Path ledger, Path base, Progress progress) throws BadInput {
        Design design = read(base, progress);
        Ledger read = LedgerReader.read(ledger, design.fabric(), progress);
        LedgerReplay.checkFile(read, ledger, base);
        return LedgerReplay.applied(read, ledger, design);
    }

    /** Designs are compared wire by wire, so the wires must bear the same names. O(vertices). */
    private static void check(Fabric one, Fabric other, Path file) throws BadInput {
        int count = one.vertexCount();
        boolean same = count == other.vertexCount();
        for (int v = 0; same && v < count; v++) {
            same = one.vertexName(v).equals(other.vertexName(v));
        }
        if (!same) {
            throw new BadInput(
                    file.toString(),
                    "$.fabric",
                    "a design on the other's fabric, " + one.info().name(),
                    "one on " + other.info().name());
        }
    }
}

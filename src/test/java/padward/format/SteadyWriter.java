package padward.format;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
import padward.format.ledger.JournalTest;
import padward.format.ledger.LedgerFile;

/** A program that keeps a given number of entries, however many others use the same ledger. */
public final class SteadyWriter {
    private SteadyWriter() {}

    /** The folder, and how often; prints how often when it is done. */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        Fabric fabric = FabricReader.read(folder.resolve("only.fabric.json"), Progress.NONE);
        int made = 0;
        while (made < Integer.parseInt(args[1])) {
            try {
                LedgerFile.change(
                        folder.resolve("bench.json"),
                        folder.resolve("only.design.json"),
                        fabric,
                        old -> old.with(JournalTest.signed(1)));
                made++;
            } catch (BadInput inUse) {
                if (!inUse.found().startsWith("in use")) {
                    throw inUse;
                }
            }
            // Else one of them would have the ledger all the time.
            TimeUnit.MICROSECONDS.sleep(500);
        }
        System.out.println(made);
    }
}

package padward.format.tables;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.source.FolderSwap;
import padward.format.tables.csv.TableOut;

/**
 * Writes fabrics, designs and boards as tables; a pattern fabric is written wire by wire. What
 * {@link TableImport} reads from the tables is exported as the same bytes again.
 */
public final class TableExport {
    private TableExport() {}

    /**
     * Writes a fabric alone.
     *
     * @param target a folder that does not exist yet, is empty, or contains only tables
     * @throws BadInput when it cannot be written; the old folder is then unchanged
     */
    public static void write(Fabric fabric, Path target, boolean zipped, Progress progress)
            throws BadInput {
        FolderSwap.write(
                target,
                TableExport::isTable,
                folder -> {
                    TableOut out = new TableOut(folder, Tables.ALL, zipped, progress);
                    writeAbout(fabric, out, Map.of());
                    new FabricRows(fabric, out).write();
                });
    }

    /** As {@link #write(Fabric, Path, boolean, Progress)}, with the design on the fabric. */
    public static void write(Design design, Path target, boolean zipped, Progress progress)
            throws BadInput {
        FolderSwap.write(
                target,
                TableExport::isTable,
                folder -> {
                    TableOut out = new TableOut(folder, Tables.ALL, zipped, progress);
                    Map<String, String> about = new TreeMap<>();
                    about.put("design", design.name());
                    about.put("design_note", design.note());
                    about.put("board", design.board().name());
                    about.put("board_note", design.board().note());
                    writeAbout(design.fabric(), out, about);
                    new FabricRows(design.fabric(), out).write();
                    DesignRows rows = new DesignRows(design, out);
                    rows.write();
                    if (design.board().isKnown()) {
                        rows.writeBoard();
                    }
                });
    }

    private static boolean isTable(String name) {
        return Tables.ALL.stream().anyMatch(t -> name.matches(t.name() + "\\.(csv|tsv)(\\.gz)?"));
    }

    private static void writeAbout(Fabric fabric, TableOut out, Map<String, String> more)
            throws IOException {
        out.table(
                Tables.ABOUT,
                rows -> {
                    rows.printRecord("fabric", fabric.info().name());
                    if (!fabric.info().note().isEmpty()) {
                        rows.printRecord("fabric_note", fabric.info().note());
                    }
                    rows.printRecord("columns", fabric.columns());
                    rows.printRecord("rows", fabric.rows());
                    for (Map.Entry<String, String> entry : more.entrySet()) {
                        if (!entry.getValue().isEmpty()) {
                            rows.printRecord(entry.getKey(), entry.getValue());
                        }
                    }
                });
    }
}

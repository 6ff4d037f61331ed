package padward.format.design;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Board;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
import padward.format.fabric.PadLookup;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Names;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Reads designs from JSON files, with the fabric and the board that they name. What it returns is
 * checked: each wire has one net, each route is a tree over existing switches, each cell is on a
 * site that accepts it.
 */
public final class DesignReader {
    private static final Shape CELL = Shape.of("name!", "kind!", "site!", "settings");
    private static final Shape PORT = Shape.of("name!", "direction!", "pad!", "setting", "enable");
    private static final String[] BEFORE_NETS = {"fabric", "board", "cells", "ports"};

    private final Source source;
    private final Progress progress;
    private final Names cellNames = new Names("cell");
    private final Names portNames = new Names("port");
    private String name = "";
    private String note = "";
    private Fabric fabric;
    private DesignRules rules;
    private PadLookup padNames;
    private Board board = Board.UNKNOWN;
    private List<Cell> cells = List.of();
    private List<Port> ports = List.of();
    private List<Net> nets = List.of();

    private DesignReader(Source source, Progress progress) {
        this.source = source;
        this.progress = progress;
    }

    /**
     * Reads a design.
     *
     * @throws BadInput when this file, or one that it names, cannot be read or has a fault
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static Design read(Path file, Progress progress) throws BadInput {
        return read(Source.of(file), progress);
    }

    /** As {@link #read(Path, Progress)}, from any source. */
    public static Design read(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.DESIGN);
        return new DesignReader(source, progress).run();
    }

    private Design run() throws BadInput {
        new Passes()
                .part("format!", JsonIn::skip)
                .part("name!", in -> name = in.name())
                .part("note", in -> note = in.text(FileLimits.NOTE))
                .part("fabric!", this::readFabric)
                .part("board", this::readBoard, "fabric")
                .part("cells", in -> cells = in.list(this::readCell), "fabric")
                .part("ports", in -> ports = in.list(this::readPort), "fabric")
                .part("nets", this::readNets, BEFORE_NETS)
                .run(source, progress);
        return new Design(name, note, fabric, board, cells, nets, ports);
    }

    private Source readReference(JsonIn in) throws BadInput {
        String relative = in.name();
        Optional<Source> other = source.findBeside(relative);
        return other.orElseThrow(
                () -> in.fault("a file name relative to this file's folder", Text.quote(relative)));
    }

    private void readFabric(JsonIn in) throws BadInput {
        fabric = FabricReader.read(readReference(in), progress);
        padNames = new PadLookup(fabric);
        rules = new DesignRules(fabric);
    }

    private void readBoard(JsonIn in) throws BadInput {
        board = BoardReader.read(readReference(in), fabric, progress);
    }

    private void readNets(JsonIn in) throws BadInput {
        nets = new NetReader(fabric, rules, cells, ports, cellNames, portNames).readAll(in);
    }

    private Cell readCell(JsonIn in) throws BadInput {
        String cell = "";
        String kind = "";
        int site = 0;
        Map<String, String> settings = Map.of();
        Members member = in.object(CELL);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> cell = cellNames.readNew(in);
                case "kind" -> kind = in.word();
                case "site" -> site = readSite(in);
                default -> settings = in.texts();
            }
        }
        in.require(in.place(), rules.placeCell(cell, kind, site));
        return new Cell(cellNames.size() - 1, cell, kind, site, settings);
    }

    private int readSite(JsonIn in) throws BadInput {
        String site = in.name();
        int number = fabric.findSite(site);
        if (number == Fabric.NOTHING) {
            throw Names.unknown(
                    in,
                    "site",
                    site,
                    () ->
                            IntStream.range(0, fabric.siteCount())
                                    .mapToObj(s -> fabric.site(s).name()));
        }
        return number;
    }

    private Port readPort(JsonIn in) throws BadInput {
        String port = "";
        PortDirection direction = PortDirection.BOTH;
        int at = 0;
        String setting = "";
        boolean tied = false;
        Members member = in.object(PORT);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> port = portNames.readNew(in);
                case "direction" ->
                        direction = in.oneOf(PortDirection.values(), PortDirection::label);
                case "pad" -> at = padNames.readName(in);
                case "setting" -> setting = readDriverSetting(in);
                default -> tied = in.oneOf(new String[] {Port.TIED}, w -> w).equals(Port.TIED);
            }
        }
        in.require(in.place(), rules.placePort(port, direction, at));
        return new Port(portNames.size() - 1, port, direction, at, setting, tied);
    }

    private String readDriverSetting(JsonIn in) throws BadInput {
        String setting = in.word();
        if (!setting.isEmpty() && fabric.info().findSetting(setting).isEmpty()) {
            throw Names.unknown(
                    in,
                    "driver setting",
                    setting,
                    () -> fabric.info().settings().stream().map(s -> s.name()));
        }
        return setting;
    }
}

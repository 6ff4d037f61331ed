package padward.format;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Board;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PadDirections;
import padward.fabric.SiteView;

/**
 * Reads designs, with the fabric and the board that they name, and checks them: each wire one net,
 * each route a tree of edges that exist, each cell on a site that takes it. One object reads one
 * file.
 */
public final class DesignReader {
    private static final Shape CELL = Shape.of("name!", "kind!", "site!", "settings");
    private static final Shape PORT = Shape.of("name!", "direction!", "pad!", "setting");

    private final Names cellNames = new Names("cell");
    private final Names portNames = new Names("port");
    private final List<Cell> cells = new ArrayList<>();
    private final List<Port> ports = new ArrayList<>();
    private final BitSet usedSites = new BitSet();
    private final Map<String, Integer> padByName = new HashMap<>();
    private final BitSet usedPads = new BitSet();
    private final Progress progress;
    private String name = "";
    private String note = "";
    private Fabric fabric;
    private Board board = Board.UNKNOWN;
    private NetReader nets;

    private DesignReader(Progress progress) {
        this.progress = progress;
    }

    /**
     * Reads a design.
     *
     * @throws BadInput when a file cannot be read, or says something that cannot be
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static Design read(Path file, Progress progress) throws BadInput {
        return read(Source.of(file), progress);
    }

    /** As {@link #read(Path, Progress)}, from any source. */
    public static Design read(Source source, Progress progress) throws BadInput {
        Head.expect(source, Head.DESIGN);
        return new DesignReader(progress).readAll(source);
    }

    private Design readAll(Source source) throws BadInput {
        new Passes()
                .part("format!", JsonIn::skip)
                .part("name!", in -> name = in.name())
                .part("note", in -> note = in.text(Limits.NOTE))
                .part("fabric!", this::readFabric)
                .part(
                        "board",
                        in -> board = BoardReader.read(beside(in), fabric, progress),
                        "fabric")
                .part("ports", in -> in.list(this::readPort), "fabric")
                .part("cells", in -> in.list(this::readCell), "fabric")
                .part("nets", this::readNets, "fabric", "cells", "ports")
                .run(source, progress);
        List<padward.design.Net> read = nets == null ? List.of() : nets.nets();
        return new Design(name, note, fabric, board, cells, read, ports);
    }

    private static Source beside(JsonIn in) throws BadInput {
        String relative = in.name();
        return in.source()
                .findBeside(relative)
                .orElseThrow(
                        () ->
                                in.fault(
                                        "the name of a file, relative to this one",
                                        Text.quote(relative)));
    }

    private void readFabric(JsonIn in) throws BadInput {
        fabric = FabricReader.read(beside(in), progress);
        for (int i = 0; i < fabric.pads().size(); i++) {
            padByName.put(fabric.pads().get(i).name(), i);
        }
    }

    private Port readPort(JsonIn in) throws BadInput {
        String portName = "";
        PortDirection direction = PortDirection.OUT;
        int pad = 0;
        String setting = "";
        Members member = in.object(PORT);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> portName = portNames.readNew(in);
                case "direction" -> direction = in.oneOf(PortDirection.values(), Labels::of);
                case "pad" -> pad = readPad(in);
                default -> setting = readSetting(in);
            }
        }
        Pad value = fabric.pads().get(pad);
        boolean fits =
                value.directions() == PadDirections.BOTH
                        || value.directions().name().equals(direction.name());
        if (!fits) {
            throw in.fault(
                    "a direction that pad "
                            + value.name()
                            + " allows, "
                            + Labels.of(value.directions()),
                    Labels.of(direction));
        }
        Port port = new Port(ports.size(), portName, direction, pad, setting);
        ports.add(port);
        return port;
    }

    private int readPad(JsonIn in) throws BadInput {
        String padName = in.name();
        Integer pad = padByName.get(padName);
        if (pad == null) {
            throw Names.unknown(in, "pad", padName, () -> fabric.pads().stream().map(Pad::name));
        }
        if (usedPads.get(pad)) {
            throw in.fault("a pad that no other port is on", Text.quote(padName) + " again");
        }
        usedPads.set(pad);
        return pad;
    }

    private String readSetting(JsonIn in) throws BadInput {
        String word = in.word();
        if (!word.isEmpty() && fabric.info().findSetting(word).isEmpty()) {
            throw Names.unknown(
                    in,
                    "driver setting",
                    word,
                    () -> fabric.info().settings().stream().map(s -> s.name()));
        }
        return word;
    }

    private Cell readCell(JsonIn in) throws BadInput {
        String cellName = "";
        String kind = "";
        int site = 0;
        Map<String, String> settings = Map.of();
        Members member = in.object(CELL);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> cellName = cellNames.readNew(in);
                case "kind" -> kind = in.word();
                case "site" -> site = readSite(in);
                default -> settings = readSettings(in);
            }
        }
        SiteView view = fabric.site(site);
        if (!view.accepts().contains(kind)) {
            throw in.fault(
                    "a kind of cell that site " + view.name() + " takes, one of " + view.accepts(),
                    Text.quote(kind));
        }
        if (usedSites.get(site)) {
            throw in.fault("a site that no other cell is on", Text.quote(view.name()) + " again");
        }
        usedSites.set(site);
        Cell cell = new Cell(cells.size(), cellName, kind, site, settings);
        cells.add(cell);
        return cell;
    }

    private int readSite(JsonIn in) throws BadInput {
        String siteName = in.name();
        int site = fabric.findSite(siteName);
        if (site == Fabric.NOTHING) {
            throw in.fault("the name of a site of the fabric", Text.quote(siteName));
        }
        return site;
    }

    private static Map<String, String> readSettings(JsonIn in) throws BadInput {
        Map<String, String> settings = new HashMap<>();
        in.beginObject();
        while (in.more()) {
            String key = in.memberName();
            if (settings.containsKey(key)) {
                throw in.faultHere("each setting once", "a second " + Text.quote(key));
            }
            settings.put(key, in.word());
        }
        in.endObject();
        return settings;
    }

    private void readNets(JsonIn in) throws BadInput {
        nets = new NetReader(fabric, cells, cellNames, ports, portNames);
        nets.read(in);
    }
}

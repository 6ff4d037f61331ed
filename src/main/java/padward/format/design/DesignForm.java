package padward.format.design;

import static padward.format.form.Kinds.checkedName;
import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.named;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.text;
import static padward.format.form.Kinds.texts;
import static padward.format.form.Kinds.word;

import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.fabric.FabricReader;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.FileLimits;
import padward.format.source.Source;
import padward.format.source.Text;

/** The form of designs. One object serves one file. */
final class DesignForm {
    private final Source source;
    private final Progress progress;
    private final Fabrics fabrics;
    private final DesignScope scope = new DesignScope();
    private final FileForm<DesignFile> form;
    private Board board = Board.UNKNOWN;

    /**
     * What a design's file states.
     *
     * @param fabric name of the fabric's file, relative to the design's
     * @param board name of the board's file; empty for none
     */
    record DesignFile(Design design, String fabric, String board) {}

    /** Reads the fabric that a design names. */
    interface Fabrics {
        /**
         * Reads it.
         *
         * @throws BadInput when that cannot be done
         */
        Fabric read(Source source, Progress progress) throws BadInput;
    }

    /** For a file to be read, with those that it names. */
    DesignForm(Source source, Fabrics fabrics, Progress progress) {
        this.source = source;
        this.fabrics = fabrics;
        this.progress = progress;
        this.form = file();
    }

    /** For the file of a design. */
    DesignForm(Design design) {
        this(new Source.OfText("", ""), FabricReader::read, Progress.NONE);
        scope.set(design);
    }

    FileForm<DesignFile> form() {
        return form;
    }

    private FileForm<DesignFile> file() {
        var file = new Fields<DesignFile>();
        file.constant("format", FileHeader.DESIGN);
        var name = file.needed("name", name(), f -> f.design().name()).means("name of the design");
        var note =
                file.optional("note", text(FileLimits.NOTE), "", f -> f.design().note())
                        .means("for people");
        var fabricName =
                file.needed("fabric", name().checked(this::readFabric), DesignFile::fabric)
                        .means("the fabric's file, relative to this one's folder");
        var boardName =
                file.optional("board", name().checked(this::readBoard), "", DesignFile::board)
                        .means("the board's file; otherwise nothing is known of the board");
        boardName.after("fabric");
        var ports =
                file.stated(
                                "ports",
                                list(port()),
                                List.of(),
                                f -> f.design().ports().stream().toList())
                        .means("its ports");
        ports.after("fabric");
        var cells =
                file.stated(
                                "cells",
                                list(cell()),
                                List.of(),
                                f -> f.design().cells().stream().toList())
                        .means("its cells");
        cells.after("fabric");
        var nets =
                file.stated(
                                "nets",
                                list(new NetForm(scope).form()),
                                List.of(),
                                f -> f.design().nets().stream().toList())
                        .means("its nets");
        scope.set(cells::get, ports::get);
        nets.after("fabric", "board", "cells", "ports");
        return file.makesFile(
                () ->
                        new DesignFile(
                                Design.ofChecked(
                                        name.get(),
                                        note.get(),
                                        scope.fabric(),
                                        board,
                                        cells.get(),
                                        nets.get(),
                                        ports.get()),
                                fabricName.get(),
                                boardName.get()));
    }

    private void readFabric(JsonIn in, String name) throws BadInput {
        scope.set(fabrics.read(beside(in, name), progress));
    }

    private void readBoard(JsonIn in, String name) throws BadInput {
        board = BoardReader.read(beside(in, name), scope.fabric(), progress);
    }

    private Source beside(JsonIn in, String relative) throws BadInput {
        return source.findBeside(relative)
                .orElseThrow(
                        () ->
                                in.fault(
                                        "a file name relative to this file's folder",
                                        Text.quote(relative)));
    }

    private Form<Cell> cell() {
        var cell = new Fields<Cell>();
        var name =
                cell.needed("name", newName(scope.cellNames()), Cell::name)
                        .means("name of the cell");
        var kind = cell.needed("kind", checkedName(), Cell::kind).means("kind of cell");
        var site =
                cell.needed(
                                "site",
                                named(this::readSite, s -> scope.fabric().site(s).name()),
                                Cell::site)
                        .means("full name of the site");
        var settings =
                cell.optional("settings", texts(), Map.of(), Cell::settings).means("its settings");
        var locked =
                cell.optional("locked", flag(), false, Cell::locked)
                        .means("`true` if it is to stay there with its settings");
        return cell.makes(
                in -> {
                    in.require(scope.rules().placeCell(name.get(), kind.get(), site.get()));
                    int id = scope.cellNames().size() - 1;
                    return new Cell(
                            id, name.get(), kind.get(), site.get(), settings.get(), locked.get());
                });
    }

    private int readSite(JsonIn in) throws BadInput {
        String site = in.name();
        Fabric fabric = scope.fabric();
        int number = fabric.findSite(site);
        if (number == Fabric.NOTHING) {
            throw Names.unknown(
                    in,
                    "site",
                    site,
                    () ->
                            IntStream.range(0, scope.fabric().siteCount())
                                    .mapToObj(s -> scope.fabric().site(s).name()));
        }
        return number;
    }

    private Form<Port> port() {
        var port = new Fields<Port>();
        var name =
                port.needed("name", newName(scope.portNames()), Port::name)
                        .means("name of the port");
        var direction =
                port.needed(
                                "direction",
                                choice(PortDirection.values(), PortDirection::label),
                                Port::direction)
                        .means("whether its signal goes in, out or both ways");
        var pad =
                port.needed(
                                "pad",
                                named(
                                        in -> scope.pads().byName().read(in),
                                        p -> scope.fabric().pads().get(p).name()),
                                Port::pad)
                        .means("full name of the pad");
        var setting =
                port.optional("setting", word().checked(this::checkSetting), "", Port::setting)
                        .means("a setting of the fabric; otherwise the pad's");
        var enable =
                port.optional(
                                "enable",
                                choice(new String[] {Port.TIED}, w -> w),
                                "",
                                p -> p.enableTied() ? Port.TIED : "")
                        .means("`tied` if the enable of the pad's driver is tied on");
        return port.makes(
                in -> {
                    in.require(scope.rules().placePort(name.get(), direction.get(), pad.get()));
                    int id = scope.portNames().size() - 1;
                    return new Port(
                            id,
                            name.get(),
                            direction.get(),
                            pad.get(),
                            setting.get(),
                            enable.get().equals(Port.TIED));
                });
    }

    private void checkSetting(JsonIn in, String setting) throws BadInput {
        if (!setting.isEmpty() && scope.fabric().info().findSetting(setting).isEmpty()) {
            throw Names.unknown(
                    in,
                    "driver setting",
                    setting,
                    () -> scope.fabric().info().settings().stream().map(s -> s.name()));
        }
    }
}

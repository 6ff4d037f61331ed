package padward.format.ledger;

import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.named;
import static padward.format.form.Kinds.texts;
import static padward.format.form.Kinds.word;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.function.ToIntFunction;
import padward.base.BadInput;
import padward.change.Edit;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.IntKind;
import padward.format.form.Kind;
import padward.format.form.Schema;
import padward.format.form.Variants;
import padward.format.json.JsonIn;
import padward.format.source.Text;

/** The forms of edits. */
final class EditForms {
    private static final Edit.CellEnd NO_END = new Edit.CellEnd("", "");

    private final IntKind vertex;

    /**
     * @param find numbers the names of vertices; {@link Fabric#NOTHING} for unknown ones
     * @param name names vertices
     */
    private EditForms(ToIntFunction<String> find, IntFunction<String> name) {
        vertex =
                named(
                        in -> {
                            String stated = in.name();
                            int number = find.applyAsInt(stated);
                            if (number == Fabric.NOTHING) {
                                throw in.fault(
                                        "the name of a wire, pin or pad of the fabric",
                                        Text.quote(stated));
                            }
                            return number;
                        },
                        name);
    }

    /** Edits that name the vertices of a fabric. */
    static EditForms on(Fabric fabric) {
        return new EditForms(fabric::findVertex, fabric::vertexName);
    }

    /** Edits that may name any vertices; these get numbers of their own. */
    static EditForms alone() {
        Map<String, Integer> numbers = new HashMap<>();
        return new EditForms(
                name -> numbers.computeIfAbsent(name, n -> numbers.size()), number -> "");
    }

    /** Any edit. */
    Variants<Edit> edit() {
        Variants<Edit> edits = new Variants<>("do", false);
        var port = edits.member("port", name(), "").means("name of the port");
        var net = edits.member("net", name(), "").means("name of the net");
        var cell = edits.member("cell", name(), "").means("name of the cell");
        var site = edits.member("site", name(), "").means("full name of its site");
        var setting = edits.member("setting", word(), "").means("name of the setting");
        var value = edits.member("value", word(), "").means("its new value");
        var from =
                edits.member("from", vertex, Fabric.NOTHING)
                        .means("where the driver meets the fabric");
        var route =
                edits.member("route", list(vertex.boxed()), List.of())
                        .means("from the net's tree to the pad, or to the pin");
        var steps = edits.member("steps", steps(), List.of()).means("from each vertex to the next");
        var nets = edits.member("nets", list(routed()), List.of()).means("new routes of its nets");
        var pad = edits.member("pad", name(), "").means("full name of the pad");
        var kind = edits.member("kind", name(), "").means("kind of the new cell");
        var settings = edits.member("settings", texts(), Map.of()).means("its settings");
        var driver = edits.member("driver", cellEnd(), NO_END).means("the pin that drives it");
        var sinks =
                edits.member("sinks", list(cellEnd()), List.of()).means("the pins that it feeds");
        var sink = edits.member("sink", cellEnd(), NO_END).means("the pin that it feeds too");
        var clock = edits.member("clock", flag(), false).means("whether it is a clock");
        var swaps =
                edits.member("swaps", list(swap()), List.of())
                        .means("its ends that go to pins that are alike");
        edits.type("disconnect-port", Edit.DisconnectPort.class)
                .needs(port, Edit.DisconnectPort::port)
                .makes(() -> new Edit.DisconnectPort(port.get()));
        edits.type("remove-net", Edit.RemoveNet.class)
                .needs(net, Edit.RemoveNet::net)
                .makes(() -> new Edit.RemoveNet(net.get()));
        edits.type("remove-cell", Edit.RemoveCell.class)
                .needs(cell, Edit.RemoveCell::cell)
                .makes(() -> new Edit.RemoveCell(cell.get()));
        edits.type("set-cell", Edit.SetCell.class)
                .needs(cell, Edit.SetCell::cell)
                .needs(setting, Edit.SetCell::setting)
                .needs(value, Edit.SetCell::value)
                .makes(() -> new Edit.SetCell(cell.get(), setting.get(), value.get()));
        edits.type("route-net", Edit.RouteNet.class)
                .needs(net, Edit.RouteNet::net)
                .needs(from, r -> r.route().root())
                .needs(steps, r -> stepsOf(r.route()))
                .may(swaps, Edit.RouteNet::swaps)
                .makes(in -> routed(in, net.get(), from.get(), steps.get(), swaps.get()));
        edits.type("relocate-cell", Edit.RelocateCell.class)
                .needs(cell, Edit.RelocateCell::cell)
                .needs(site, Edit.RelocateCell::site)
                .needs(nets, Edit.RelocateCell::nets)
                .makes(() -> new Edit.RelocateCell(cell.get(), site.get(), nets.get()));
        edits.type("break-out", Edit.BreakOut.class)
                .needs(net, Edit.BreakOut::net)
                .needs(port, Edit.BreakOut::port)
                .needs(pad, Edit.BreakOut::pad)
                .may(setting, Edit.BreakOut::setting)
                .needs(route, Edit.BreakOut::route)
                .makes(
                        () ->
                                new Edit.BreakOut(
                                        net.get(),
                                        port.get(),
                                        pad.get(),
                                        setting.get(),
                                        route.get()));
        edits.type("set-driver", Edit.SetDriver.class)
                .needs(port, Edit.SetDriver::port)
                .needs(setting, Edit.SetDriver::setting)
                .makes(() -> new Edit.SetDriver(port.get(), setting.get()));
        edits.type("tie-enable", Edit.TieEnable.class)
                .needs(port, Edit.TieEnable::port)
                .makes(() -> new Edit.TieEnable(port.get()));
        edits.type("add-cell", Edit.AddCell.class)
                .needs(cell, Edit.AddCell::cell)
                .needs(kind, Edit.AddCell::kind)
                .needs(site, Edit.AddCell::site)
                .may(settings, Edit.AddCell::settings)
                .makes(() -> new Edit.AddCell(cell.get(), kind.get(), site.get(), settings.get()));
        edits.type("add-net", Edit.AddNet.class)
                .needs(net, Edit.AddNet::net)
                .needs(driver, Edit.AddNet::driver)
                .needs(sinks, Edit.AddNet::sinks)
                .needs(from, r -> r.route().root())
                .needs(steps, r -> stepsOf(r.route()))
                .may(clock, Edit.AddNet::clock)
                .makes(
                        in ->
                                new Edit.AddNet(
                                        net.get(),
                                        driver.get(),
                                        sinks.get(),
                                        routed(in, net.get(), from.get(), steps.get(), List.of())
                                                .route(),
                                        clock.get()));
        edits.type("add-sink", Edit.AddSink.class)
                .needs(net, Edit.AddSink::net)
                .needs(sink, Edit.AddSink::sink)
                .needs(route, Edit.AddSink::route)
                .makes(() -> new Edit.AddSink(net.get(), sink.get(), route.get()));
        edits.type("add-input", Edit.AddInput.class)
                .needs(net, Edit.AddInput::net)
                .needs(port, Edit.AddInput::port)
                .needs(pad, Edit.AddInput::pad)
                .needs(sinks, Edit.AddInput::sinks)
                .needs(from, r -> r.route().root())
                .needs(steps, r -> stepsOf(r.route()))
                .makes(
                        in ->
                                new Edit.AddInput(
                                        net.get(),
                                        port.get(),
                                        pad.get(),
                                        sinks.get(),
                                        routed(in, net.get(), from.get(), steps.get(), List.of())
                                                .route()));
        return edits;
    }

    private static Form<Edit.CellEnd> cellEnd() {
        var end = new Fields<Edit.CellEnd>();
        var cell = end.needed("cell", name(), Edit.CellEnd::cell).means("name of the cell");
        var pin = end.needed("pin", name(), Edit.CellEnd::pin).means("its pin");
        return end.makes(() -> new Edit.CellEnd(cell.get(), pin.get()));
    }

    private Form<Edit.RouteNet> routed() {
        var routed = new Fields<Edit.RouteNet>();
        var net = routed.needed("net", name(), Edit.RouteNet::net).means("name of the net");
        var from =
                routed.needed("from", vertex, r -> r.route().root())
                        .means("where its driver meets the fabric");
        var steps =
                routed.needed("steps", steps(), r -> stepsOf(r.route()))
                        .means("from each vertex to the next");
        var swaps =
                routed.optional("swaps", list(swap()), List.of(), Edit.RouteNet::swaps)
                        .means("its ends that go to pins that are alike");
        return routed.makes(in -> routed(in, net.get(), from.get(), steps.get(), swaps.get()));
    }

    private static Form<Edit.PinSwap> swap() {
        var swap = new Fields<Edit.PinSwap>();
        var cell = swap.needed("cell", name(), Edit.PinSwap::cell).means("name of the cell");
        var pin =
                swap.needed("pin", name(), Edit.PinSwap::pin)
                        .means("the pin at which the net ended");
        var with =
                swap.needed("with", name(), Edit.PinSwap::with)
                        .means("the pin at which it ends now");
        return swap.makes(() -> new Edit.PinSwap(cell.get(), pin.get(), with.get()));
    }

    private Kind<List<List<Integer>>> steps() {
        return list(list(vertex.boxed()).limited(Schema.any().with("minItems", 2)));
    }

    private static List<List<Integer>> stepsOf(RouteTree tree) {
        List<List<Integer>> all = new ArrayList<>();
        for (int place = 1; place < tree.size(); place++) {
            all.add(List.of(tree.vertex(tree.parent(place)), tree.vertex(place)));
        }
        return all;
    }

    private static Edit.RouteNet routed(
            JsonIn in, String net, int from, List<List<Integer>> route, List<Edit.PinSwap> swaps)
            throws BadInput {
        RouteTree.Builder tree = new RouteTree.Builder(from);
        try {
            for (List<Integer> branch : route) {
                for (int i = 1; i < branch.size(); i++) {
                    tree.add(branch.get(i - 1), branch.get(i));
                }
            }
        } catch (IllegalArgumentException fault) {
            throw in.fault("a route that is a tree", fault.getMessage());
        }
        return new Edit.RouteNet(net, tree.build(), swaps);
    }
}

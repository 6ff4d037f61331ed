package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.delay;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.word;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.function.ToIntBiFunction;
import java.util.stream.Stream;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.design.Occupant;
import padward.fabric.EdgeKind;
import padward.fabric.VertexKind;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.EdgeDelays;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;
import padward.format.form.WrittenKinds;
import padward.format.json.EnumWords;

/** The forms of routes and of what stands on them. */
final class RouteForm {
    private RouteForm() {}

    /** Adds a route, where there is one. */
    static <R> void addRoute(Fields<R> to, Function<R, Optional<Route>> route) {
        to.maybe("delay_ps", delay(), r -> route.apply(r).map(Route::total))
                .means("from the net's driver to the pin");
        to.maybe("setting", text(), r -> route.apply(r).flatMap(Route::setting).map(s -> s.name()))
                .means("the setting of the pad's driver that the sum includes");
        to.maybe(
                        "setting_delay_ps",
                        delay(),
                        r -> route.apply(r).flatMap(Route::setting).map(s -> s.delay()))
                .means("what it adds");
        to.maybe(
                        "shortestHigh_ps",
                        WrittenKinds.whole(),
                        r -> shortest(route.apply(r), EdgeDelays::shortestHighPs))
                .means(
                        "where the setting states both edges: the shortest high level that reaches"
                                + " its full height on the pad, at the rated load");
        to.maybe(
                        "shortestLow_ps",
                        WrittenKinds.whole(),
                        r -> shortest(route.apply(r), EdgeDelays::shortestLowPs))
                .means("the same for a low level");
        to.maybe("hops", list(hop()), r -> route.apply(r).map(Route::hops))
                .means("each vertex of the route");
    }

    private static OptionalInt shortest(
            Optional<Route> route, ToIntBiFunction<EdgeDelays, Delay> level) {
        return route.flatMap(Route::setting).stream()
                .flatMapToInt(s -> s.edges().stream().mapToInt(e -> level.applyAsInt(e, rise(s))))
                .findFirst();
    }

    /** At the rated load; zero when not known. */
    private static Delay rise(DriverSetting setting) {
        return setting.output().map(o -> o.riseAt(o.ratedPf())).orElse(Delay.ZERO);
    }

    private static Form<Hop> hop() {
        List<String> edges =
                Stream.concat(
                                Stream.of("driver"),
                                Stream.of(EdgeKind.values()).map(EdgeKind::label))
                        .toList();
        List<String> kinds = Stream.of(VertexKind.values()).map(EnumWords::of).toList();
        var hop = new Fields<Hop>();
        hop.needed("vertex", text(), Hop::name).means("its name");
        hop.needed("kind", word(kinds), h -> EnumWords.of(h.kind())).means("what it is");
        hop.needed("tile", text(), Hop::tile).means("its tile");
        hop.needed("edge", word(edges), h -> h.edge().map(EdgeKind::label).orElse("driver"))
                .means("what led there");
        hop.needed("delay_ps", delay(), Hop::step).means("of that");
        hop.needed("total_ps", delay(), Hop::total).means("from the driver");
        hop.needed("onNet", Kinds.flag(), Hop::onNet).means("whether it is on the net already");
        hop.maybe("usedBy", occupant(), Hop::obstacle).means("what uses it");
        return hop.written();
    }

    /** What uses something. */
    static Form<Occupant> occupant() {
        var occupant = new Fields<Occupant>();
        PriceForm.addOccupant(occupant, o -> o);
        return occupant.written();
    }

    /** Adds an obstacle. */
    static <R> void addObstacle(Fields<R> to, Function<R, Obstacle> obstacle) {
        PriceForm.addOccupant(to, r -> obstacle.apply(r).occupant());
        to.needed("resource", text(), r -> obstacle.apply(r).resource()).means("what it uses");
        to.needed("resourceKind", text(), r -> obstacle.apply(r).resourceKind())
                .means("what that is");
        to.optional("switchOn", text(), "", r -> obstacle.apply(r).switchOn())
                .means("the switch, where that is a switch group");
        to.needed("tile", text(), r -> obstacle.apply(r).tile()).means("its tile");
        to.needed("removable", Kinds.flag(), r -> obstacle.apply(r).removable())
                .means("whether it serves only the port that loses its pad");
    }

    /** An obstacle of an answer without explanation. */
    static Form<Obstacle> obstacle() {
        var obstacle = new Fields<Obstacle>();
        addObstacle(obstacle, o -> o);
        obstacle.needed("wouldLoseSignal", WrittenKinds.whole(), Obstacle::wouldLose)
                .means("endpoints that would lose their signal if it is removed and not moved");
        return obstacle.written();
    }
}

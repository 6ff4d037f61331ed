package padward.api;

import java.util.List;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Hop;
import padward.breakout.text.WhyText;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Port;
import padward.fabric.Pad;
import padward.fabric.delay.Delay;

/** Makes the library's values of the program's own. */
final class Values {
    private Values() {}

    static FoundNet net(Design design, Net net) {
        return new FoundNet(
                net.name(), design.textOf(net.driver()), net.sinks().size(), net.clock());
    }

    static FoundPad pad(Design design, int index) {
        Pad pad = design.fabric().pads().get(index);
        List<String> others =
                PadNames.namesOf(design, index).stream()
                        .filter(n -> !n.equals(pad.name()) && !n.equals(pad.packagePin()))
                        .toList();
        return new FoundPad(
                pad.name(),
                pad.packagePin(),
                pad.bank(),
                design.findPortOn(index).map(Port::name),
                others);
    }

    static DelayRange delay(Delay delay) {
        return new DelayRange(delay.fastPs(), delay.slowPs());
    }

    static RouteStep step(Hop hop) {
        return new RouteStep(
                hop.name(),
                hop.tile(),
                delay(hop.total()),
                hop.onNet(),
                hop.obstacle().map(WhyText::who));
    }

    static padward.api.Caution caution(Caution caution) {
        return new padward.api.Caution(
                caution.kind().label(), caution.kind().isSerious(), caution.text());
    }
}

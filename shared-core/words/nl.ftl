# What Sweepbell says, in Dutch: je, short, concrete. Dutch of the Netherlands where countries differ.
#
# One word a thing: werkplaats (shop), ruimte (room), beheerder (steward), buddy, weg om and vertrektijd (out-by), vegen
# (sweep), bel (bell), laatste vonk (last spark), brandwacht (fire watch), heet werk (hot work), buiten gebruik (tagged
# out), label (tag), klus (chore), ronde (round), aftekening (sign-off), rondgang (induction), reglement (rulebook),
# logboek (log), server (hub), tint (shade).


## The page before the app has started (index.html shows the English; start.js the others)

page-opening = Bezig met openen. Na het eerste bezoek is geen netwerk nodig.
page-failed = Sweepbell kon in deze browser niet starten. Laad de pagina opnieuw; helpt dat niet, dan gelden zolang de papieren regels van de werkplaats.

## Lengths of time and numbers

time-minutes-short = { NUMBER($minutes) } min
time-hours-short = { NUMBER($hours) } u { $minutes }
time-days = { $days ->
    [one] { $days } dag
   *[other] { $days } dagen
}
time-just-now = zojuist
time-ago = { $length } geleden
time-decimal = { $whole },{ $part }

## The places, and what surrounds every screen

frame-app = Sweepbell
frame-places = Plekken
frame-door = Deur
frame-bench = Bank
frame-sweep = Vegen
frame-room = Ruimte
frame-book = Boek
frame-back = Terug
frame-read = Begrepen
frame-no-session = Nog geen sessie
frame-no-session-bench = Als je binnen bent, staan hier je machines, met de tijd tot het vegen en tot de laatste vonk.
frame-no-session-sweep = Als je binnen bent, staat hier het afsluiten, klus voor klus, in de beste volgorde.
frame-to-door = Naar de deur
frame-demo = { $shop } is een demowerkplaats: de mensen en het logboek zijn verzonnen.
frame-book-with = Boek +{ NUMBER($waiting) }

## What comes after the first picture, until it is here

later-moment = Een ogenblik
later-failed = Dit deel van de app is niet aangekomen.
later-next = Wat je hebt bevestigd blijft bewaard, en je sessie gaat door. Probeer het opnieuw waar netwerk is.

## Before the app can be used

gate-starting = Het logboek van deze telefoon wordt gelezen
gate-resuming = Je sessie gaat door
gate-out-by = Weg om
gate-sweep-from = Vegen vanaf
gate-no-storage = Deze browser bewaart hier niets, dus geen sessie kan worden vastgelegd.
gate-no-storage-next = Open Sweepbell in een gewoon venster, niet in een privévenster. Zolang gelden de papieren regels van de werkplaats.
gate-no-key = De sleutel van deze telefoon is niet te lezen, dus er kan niets worden ondertekend.
gate-no-key-next = Sluit andere tabbladen en laad opnieuw. Helpt dat niet, vraag de beheerder dan om deze telefoon opnieuw te laten meedoen.
gate-join = Meedoen met de werkplaats
gate-join-why = Eén keer, met netwerk. Daarna werkt alles zonder.
gate-join-code = Meedoecode
gate-join-hint = Een beheerder maakt die voor je.
gate-join-act = Meedoen
gate-join-scan = Liever scannen
gate-checking = De werkplaats wordt gevraagd
gate-who = { $shop }. Wie ben jij?
gate-who-why = Kies je eigen naam: deze telefoon tekent vanaf nu voor jou.
gate-is-it = { $shop }. Ben jij { $name }?
gate-for-why = Deze code is alleen voor { $name } en werkt één keer. Deze telefoon tekent voortaan voor { $name }.
gate-for-replaces = De telefoon die hij vervangt gaat van de lijst zodra deze erbij is.
gate-join-as = Meedoen als { $name }
gate-stop-joining = Terug
gate-fetching = De regels van de werkplaats worden opgehaald
gate-offline-next = Om mee te doen is deze ene keer netwerk nodig. Controleer het en probeer het opnieuw.
gate-again = Opnieuw proberen

## Arriving

door-title = Aan de deur
door-teach = Scan de code bij de deur waar je bent. Je krijgt een paar vragen, één voor één.
door-scan = Scan de deurcode
door-pick = Of kies de ruimte
door-empty = voor zover bekend niemand binnen
door-inside = { $people ->
    [one] 1 persoon binnen
   *[other] { $people } mensen binnen
}
door-step = { $room }. { NUMBER($step) } van { NUMBER($of) }
door-yes = Ja, zo is het
door-not-today = Nu niet
door-out-by = Hoe laat moet je weg zijn?
door-room = { $room }. Bijna binnen.
door-in-hours = over { $length }
door-earlier = 15 min eerder
door-later = 15 min later
door-begin = Beginnen, weg om { $clock }
door-in-room = Je bent in: { $room }
door-in-teach = Ga je helemaal weg? Veeg eerst en ga daar weg. De deurcode is om aan te komen.
door-to-bench = Naar de bank
door-be-buddy = Scannen om buddy te zijn
door-barred = Nog niet
door-cautions = Wat deze app niet kan

## Working

bench-title = Bank, { $room }
bench-sweep-in = Vegen vanaf { $clock }, over
bench-sweep-since = Vegen moest vanaf { $clock }, te laat
bench-sweep-soon = { $minutes ->
    [one] Nog 1 minuut tot het vegen, om { $clock }.
   *[other] Nog { $minutes } minuten tot het vegen, om { $clock }.
}
bench-out-by-soon = { $minutes ->
    [one] Nog 1 minuut tot je weg moet zijn, om { $clock }.
   *[other] Nog { $minutes } minuten tot je weg moet zijn, om { $clock }.
}
bench-min = min
bench-out-by = Weg om
bench-move-it = verzet
bench-move-out-by = Vertrektijd verzetten
bench-out-by-cannot-be-kept = Het heet werk eindigde laat. Na de brandwacht en het vegen is het { $free-at }: later dan je vertrektijd.
bench-stay-and-move = Blijf voor de brandwacht en verzet je vertrektijd.
bench-free-at = Vrij, als je nu veegt
bench-not-proven = Zoveel klussen dat dit plan goed is, maar niet bewezen het kortste.
bench-start-sweep = Beginnen met vegen
bench-machines = Machines
bench-news-old = Deze telefoon hoorde { $ago } voor het laatst van de werkplaats. Een label van daarna is hier niet bekend: kijk bij de machine zelf.
bench-no-machines = In deze ruimte staan geen machines. Handwerk hoef je niet te starten; het vegen wacht evengoed op je.
bench-start = Starten
bench-stop = Stoppen
bench-why-not = Waarom niet?
bench-act-on = { $act }: { $machine }
bench-running = draait, { $length }
bench-needs-buddy = vraagt een buddy
bench-hot-work = heet werk
bench-pedal = pedaal: elke voet start hem
bench-covered = nog { $length } een buddy
bench-uncovered = Nu geen buddy. Stop hem, of vraag opnieuw.
bench-buddy = { $name } is je buddy
bench-buddy-left = nog { $length }
bench-no-buddy = Nog niemand is je buddy. Sommige machines hier vragen er een.
bench-ask-buddy = Een buddy vragen
bench-ask-again = Opnieuw vragen
bench-wear = Draag
bench-never = Doe af
bench-check = Controleer
bench-material = Wat bewerk je?
bench-refuses = Nooit in deze machine: { $materials }.
bench-material-other = Niets daarvan
bench-all-so = Alles in orde. Starten
bench-nothing-to-check = Het reglement vraagt verder niets van deze machine. Kijk hem evengoed na.
bench-crew-how-many = Met hoeveel vegen jullie?
bench-crew-why = Machines die nog draaien tellen als gestopt. Zet ze eerst uit.
bench-crew-one = Alleen ik
bench-crew = Met { NUMBER($count) }
bench-move-to = Weg om { $clock }
bench-lapses = Wat je aan de deur bevestigde geldt tot { $clock }.

## Closing down

sweep-not-begun = Er wordt nog niet geveegd
sweep-preview = Dit wacht aan het eind, in de beste volgorde.
sweep-title = Vegen, { $room }
sweep-with = Ook hier: { $names }
sweep-last-out = Voor zover bekend is er niemand anders, dus de laatste klussen van de ruimte zijn voor jou.
sweep-crew-again = Anderen vegen mee
sweep-done-by = Klaar om
sweep-all-done = Alles is gedaan. Dank je.
sweep-no-chores = Het reglement noemt hier geen klussen. Laat het achter zoals je het zelf graag vindt.
sweep-from = vanaf { $clock }
sweep-done-at = gedaan { $clock }
sweep-after = na: { $first }
sweep-hands = { $count ->
    [one] 1 persoon
   *[other] { $count } mensen
}
sweep-unattended = gaat vanzelf
sweep-photo = Met een foto
sweep-photo-of = Gedaan, met een foto: { $chore }
sweep-sparking = Het heet werk is nog bezig. De brandwacht begint als het stopt.
sweep-watch-until = Brandwacht tot { $clock }
sweep-watch-why = Waarom tot dan?
sweep-watch-how = Kijk en ruik of iets smeult: eronder, erachter en in het veegvuil.
sweep-watch-over = De brandwacht was voorbij om { $clock }.
sweep-walked = Ik heb de plek rondgelopen
sweep-walked-ago = Laatst rondgelopen: { $ago }.
sweep-running = Nog aan: { $names }
sweep-running-next = Zet uit wat draait; als het vegen begint telt het als gestopt.
sweep-leave-clean = Ik laat het schoon achter
sweep-leave = Weggaan
sweep-leave-title = Voor je gaat
sweep-missing-why = Je kunt evengoed weggaan. Het Boek zegt wat er over is, zodat de volgende het weet.
sweep-watch-short = { $minutes ->
    [one] De brandwacht duurt nog 1 minuut.
   *[other] De brandwacht duurt nog { $minutes } minuten.
}
sweep-watch-short-next = Blijf, of vraag iemand om hem voor je te houden. Gloeiende resten kennen geen klok.
sweep-leave-now = De ruimte verlaten
sweep-stay = Nog even blijven
sweep-missing = { $count ->
    [one] 1 klus is over
   *[other] { $count } klussen zijn over
}

## Who is here

room-title = Ruimte
room-board = { $room } als bord voor aan de muur
room-nobody = Voor zover bekend is niemand binnen.
room-me = { $name } (jij)
room-since = binnen sinds { $since }, weg om { $out-by }
room-sweeping = veegt
room-heard = laatst iets gehoord: { $ago }
room-muster = Appèl
room-muster-how = Roep buiten elke naam. Dit weet deze telefoon; wie geen telefoon heeft staat er niet op.
room-clear = Ruimte ontruimen
room-clear-sure = Bel voor iedereen: ruimte ontruimen
room-clear-called = Om { $clock } is iedereen naar buiten geroepen. Roep het ook hardop: niet elke telefoon wordt gehoord.
room-count = { $people ->
    [one] Van 1 persoon is niet bekend dat die weg is
   *[other] Van { $people } mensen is niet bekend dat ze weg zijn
}
room-call = Bel { $number }
room-call-emergency = In gevaar: stop, ga weg, bel het alarmnummer.
room-tagged = Buiten gebruik
room-none-tagged = Niets is buiten gebruik.
room-tagged-since = gelabeld: { $ago }
room-tag-thread = De reparatie ervan
room-tag-out = Een machine buiten gebruik stellen
room-tag-which = Welke machine?
room-tag-what = Wat is ermee?
room-tag-photo = Buiten gebruik, met een foto
room-tag-hint = Eén zin. De volgende leest hem voordat die naar de schakelaar grijpt.
room-tag = Buiten gebruik: { $machine }
room-rounds = Rondes
room-round-late = Te laat: dit moest { $ago }.
room-round-due = Over { $length }.
room-round-never = Niemand heeft opgeschreven dat het gedaan is.
room-round-done = Laatst gedaan door { $name },{ " " }
room-round-act = Gedaan
room-found = Hoe heb je het gevonden?
room-found-clean = Het was schoon
room-found-mess = Het was vuil
room-found-where = Waar?
room-whole = { $room }: de ruimte zelf
room-mess-what = Wat heb je gevonden?
room-mess-hint = Wat en waar. Geen namen: het logboek kent de tijden, en de beheerder vraagt het vriendelijk.
room-mess-talk = Weet je wie hier was, praat dan eerst: ‘Wat was je aan het maken? Zullen we samen de krullen opruimen?’
room-mess-tell = Het opschrijven
room-clean = schoon
room-mess = vuil
room-incident = De beheerder iets vertellen
room-incident-what = Wat is er gebeurd?
room-incident-tell = In het logboek zetten

## The log and this phone

book-title = Boek
book-pages = Bladzijden van het boek
book-back-to-book = Terug naar het boek
book-stewards-page = Deze bladzijde is voor wie de werkplaats beheert.
book-page-today = Vandaag
book-page-today-hint = Wie binnen is en wat jou nodig heeft
book-page-walk = De rondgang
book-page-walk-hint = Halte voor halte door de ruimtes; wat er sinds de jouwe veranderde
book-page-sign-offs = Wat ik mag gebruiken
book-page-sign-offs-hint = Je aftekeningen, tot wanneer, en wat volgt
book-page-people = Mensen
book-page-people-hint = Wie is wie; rondleiden, aftekenen, telefoons
book-page-rules = Regels
book-page-rules-hint = Het reglement: geschreven, geprobeerd, uitgegeven
book-page-figures = Cijfers
book-page-figures-hint = Hoe de maanden waren; om af te drukken en mee te nemen
book-page-rounds = Rondes
book-page-rounds-hint = Wat moet, wat te laat is, en wie ze wanneer deed
book-page-print = Afdrukken
book-page-print-hint = Codes voor deuren, machines, haltes en rondes
book-page-repairs = Reparaties
book-page-repairs-hint = Wat eruit ligt, wie het maakt, wie het controleert
book-page-finds = Vondsten
book-page-finds-hint = Rommel, wie het kan zijn geweest, wat terugkomt
book-page-incidents = Voorvallen
book-page-incidents-hint = Wat er gebeurde en wat er veranderd is
book-all-held = Alles is bij de server.
book-waiting-next = Hier is het veilig. Het gaat mee zodra er netwerk is.
book-sync = Nu versturen
book-reached = Server bereikt: { $ago }.
book-not-asked = De server is nog niet gevraagd.
book-not-all = Deze telefoon heeft nog niet het hele logboek.
book-not-all-next = Wat hier staat kan veranderen zodra dat zo is.
book-rejected-next = Ze blijven hier, met de reden. Laat ze aan de beheerder zien.
book-aside-next = Ze liggen onaangeroerd apart; de rest van het logboek gaat door. Zeg het de beheerder.
book-evenings = Je avonden
book-no-evenings = Elke sessie die je verlaat, wordt hier getekend: werk, brandwacht, vegen.
book-evening = { $chores ->
    [one] Weg om { $left }, uiterlijk { $out-by }; 1 klus afgevinkt
   *[other] Weg om { $left }, uiterlijk { $out-by }; { $chores } klussen afgevinkt
}
book-lines = Het logboek van deze telefoon
book-no-lines = Nog niets. Wat je in een sessie doet, staat hier regel voor regel, ondertekend door deze telefoon.
book-more = { $count ->
    [one] Toon 1 eerdere regel
   *[other] Toon { $count } eerdere regels
}
book-line-waits = wacht
book-line-held = bij de server
book-line-rejected = niet aangenomen: { $why }
book-phone = Deze telefoon
book-signs-for = Tekent voor { $name } bij { $shop }.
book-key-sealed = De sleutel ligt verzegeld in de browser.
book-key-seed = De sleutel ligt in de opslag van de browser; deze browser kan hem niet verzegelen.
book-pin = Zes cijfers van jezelf
book-pin-hint = Voor als je telefoon leeg is: op de telefoon van iemand anders getypt kun je daarmee diens buddy zijn. Geen datum, en geen cijfers die je elders gebruikt.
book-pin-act = Deze cijfers bewaren
book-card-days = { $days ->
    [one] Je kaart is nog één dag goed.
   *[other] Je kaart is nog { $days } dagen goed.
 }
book-card-out = Je kaart is verlopen.
book-steward = Je beheert deze werkplaats.
book-signer = Je tekent anderen af.
book-list = Welke telefoons van de lijst zijn: zoals de hub het { $ago } had.
book-show-card = Mijn kaart tonen
book-card-code = Je kaart, als code
book-card-how = Voor wie een telefoon heeft die de jouwe nog niet kent: die scant dit, en dan je antwoord.
book-off-none = De hub heeft alles wat hij zei. Vraag een beheerder om een code voor een andere telefoon.
book-off-next = { $count ->
    [one] Eén regel die hij niet heeft verstuurd, is hier veilig. Lever hem in, en een beheerder beslist of hij telt; of bewaar hem als bestand.
   *[other] { $count } regels die hij niet heeft verstuurd, zijn hier veilig. Lever ze in, en een beheerder beslist of ze tellen; of bewaar ze als bestand.
 }
book-hand-in = Inleveren
book-keep-file = Bewaren als bestand
book-handed = De hub heeft het. Een beheerder beslist of het telt.
book-phones = Telefoons
book-phones-how = Een nieuwe telefoon, of nog een: vraag een beheerder om een code en scan die daar. Een kwijt? Haal hem meteen van de lijst, hier of via een beheerder: dan leest hij niets meer, en niets wat hij zegt telt. Een code in zijn plaats haalt hem vanzelf van de lijst.
book-look-up = Mijn telefoons opzoeken
book-people-how = Een code is voor één lid, werkt één keer en verloopt na een dag.
book-people-look-up = Codes en telefoons opzoeken
book-invite = Code voor { $name }
book-replace = Code in zijn plaats
book-made = Voor { $name }: om te scannen, of te typen
book-open-code = Code voor { $name }, nog niet gebruikt
book-take-back = Terugnemen
book-a-phone = Een telefoon van { $name }, sinds { $ago }
book-this-one = deze telefoon
book-off = van de lijst
book-take-off = Van de lijst halen
book-take-off-sure = Voorgoed van de lijst halen
book-late = { $lines ->
    [one] Eén te laat ingeleverde regel wacht.
   *[other] { $lines } te laat ingeleverde regels wachten.
}
book-admit = Ze zijn van hen: opnemen
book-admitted = { $lines ->
    [one] Eén regel is in het logboek opgenomen.
   *[other] { $lines } regels zijn in het logboek opgenomen.
}
book-hang = Als bord gebruiken
book-hang-in = Ophangen in { $room }
book-hang-nowhere = Hij hangt nergens
book-mine = Wat de hub van jou bewaart
book-mine-how = Om te zien, mee te nemen of te laten wissen. Wat je aan de deur niet bevestigde, en het geluid en de trillingen van een dag, verlaten deze telefoon nooit.
book-mine-look-up = Opvragen
book-mine-lines = { $count ->
    [one] Eén regel die jouw telefoons tekenden
   *[other] { $count } regels die jouw telefoons tekenden
}
book-mine-naming = { $count ->
    [one] Eén regel van een ander die jou als buddy noemt
   *[other] { $count } regels van anderen die jou als buddy noemen
}
book-mine-more = { $count ->
    [one] Jouw rij in het ledenbestand, één telefoon en codes die voor jou gemaakt zijn
   *[other] Jouw rij in het ledenbestand, { $count } telefoons en codes die voor jou gemaakt zijn
}
book-mine-figures = Waarmee jouw cijfers gecontroleerd worden
book-mine-pictures = { $count ->
    [one] Eén foto die een telefoon van jou heeft overgedragen
   *[other] { $count } foto’s die jouw telefoons hebben overgedragen
}
book-mine-stays = { $count ->
    [one] Eén regel geldt nog en blijft voorlopig: een label op een machine, het laatste woord over een ronde of een sessie die nog loopt.
   *[other] { $count } regels gelden nog en blijven voorlopig: een label op een machine, het laatste woord over een ronde of een sessie die nog loopt.
}
book-mine-days = { $days ->
    [one] Het logboek wordt één dag bewaard en verdwijnt dan vanzelf, ook op telefoons.
   *[other] Het logboek wordt { $days } dagen bewaard en verdwijnt dan vanzelf, ook op telefoons.
}
book-mine-file = Meenemen als bestand
book-erase = Laten wissen
book-erase-sure = Voorgoed wissen
book-erased = { $count ->
    [one] Eén regel is gewist, ook hier. De plaats in het logboek blijft, leeg.
   *[other] { $count } regels zijn gewist, ook hier. Hun plaatsen in het logboek blijven, leeg.
}
book-clock-offset = { $minutes ->
    [one] De klok loopt 1 minuut anders dan die van de server.
   *[other] De klok loopt { $minutes } minuten anders dan die van de server.
}
book-theme = Uiterlijk
book-theme-phone = Zoals de telefoon
book-theme-dark = Donker staal
book-theme-light = Papier
book-language = Taal
book-notices = Laat de bellen zien op de vergrendelde telefoon
book-notices-on = Bellen zijn te zien op de vergrendelde telefoon.
book-notices-off = Bellen zijn niet te zien op de vergrendelde telefoon; dat bepalen de instellingen voor deze pagina.
book-notices-why = Een vergrendelde telefoon kan toch stil blijven. Zet ook de eigen timer.
book-update-waits = Een nieuwe versie staat klaar.
book-update-next = Ze wacht tot er geen sessie open is.
book-update = Nu overstappen
book-waiting = { $count ->
    [one] 1 regel wacht op deze telefoon.
   *[other] { $count } regels wachten op deze telefoon.
}
book-rejected = { $count ->
    [one] De server nam 1 regel niet aan.
   *[other] De server nam { $count } regels niet aan.
}
book-aside = { $count ->
    [one] 1 regel was niet opnieuw te lezen.
   *[other] { $count } regels waren niet opnieuw te lezen.
}

## Asking and answering

buddy-ask = Een buddy vragen
buddy-ask-how = Iemand in deze ruimte scant dit met de eigen telefoon en bevestigt. Scan dan wat die telefoon laat zien.
buddy-ask-code = Je code voor een buddy
buddy-good-for = { $minutes ->
    [one] Nog 1 minuut geldig.
   *[other] Nog { $minutes } minuten geldig.
}
buddy-too-old = Deze code is verlopen. Ga terug en vraag opnieuw.
buddy-could-be = Voor zover bekend in deze ruimte
buddy-ask-phone = Ook de telefoon vragen
buddy-asked-too = De telefoon van { $name } is ook via het netwerk gevraagd.
buddy-scan-answer = Scan het antwoord
buddy-show-code = Mijn code weer tonen
buddy-asks = { $name } vraagt of jij buddy wilt zijn
buddy-manners = Laat je zien voordat je iemand bij een machine aanspreekt.
buddy-here = Ik ben in de ruimte
buddy-leaving = Ik ga weg
buddy-show-back = Laat dit zien
buddy-show-back-how = { $name } scant het met de eigen telefoon. Dan telt het.
buddy-answer-code = Je antwoord
buddy-carrying = Wordt ook via het netwerk verstuurd.
buddy-carried = Het ging ook via het netwerk. Misschien is het er al.
buddy-not-carried = Het netwerk reikt niet. De code is genoeg.
buddy-done = Klaar
buddy-covering = Je bent buddy van { $name } tot { $clock }
buddy-covering-how = Ga je de ruimte uit? Scan de code opnieuw, meld het zo, en zeg het ook zelf.
buddy-given-word = op eigen woord
buddy-given-room = in de ruimte
buddy-given-pin = met hun cijfers
buddy-board = Code op het bord
buddy-board-hint = Zes cijfers, elke halve minuut andere. Daarmee staat erbij dat je in de ruimte bent. Je mag ze weglaten.
buddy-no-phone = Een buddy zonder telefoon
buddy-who = Wie is het?
buddy-figures = Zes cijfers van { $name }
buddy-figures-hint = { $name } typt ze hier. Niemand anders kijkt.
buddy-in-room = In: { $room }.
buddy-at-machine = Machine: { $machine }. Ruimte: { $room }.
buddy-means = { $minutes ->
    [one] Je bent in dezelfde ruimte, je blijft er en je kijkt af en toe op. Je woord geldt 1 minuut; daarna word je opnieuw gevraagd.
   *[other] Je bent in dezelfde ruimte, je blijft er en je kijkt af en toe op. Je woord geldt { $minutes } minuten; daarna word je opnieuw gevraagd.
}

## Bells

bell-first = Maak af waar je mee bezig bent.
bell-sweep = Stop. Begin met vegen.
bell-last = Je vertrektijd is voorbij.
bell-last-spark = Laatste vonk. Geen heet werk meer.
bell-lapsing = Het woord van je buddy loopt over 2 minuten af.
bell-lapsed = Geen buddy. Stop de machine.
bell-name-first = Eerste bel, { $clock }
bell-name-sweep = Veegbel, { $clock }
bell-name-last = Laatste bel, { $clock }
bell-name-last-spark = Laatste vonk, { $clock }
bell-name-buddy = { $machine }, { $clock }
bell-clear = Verlaat de ruimte.
bell-clear-next = Schakel uit en ga langs de kortste weg naar buiten. Kom in zicht voordat je iemand aan een machine aanspreekt. Dan het appèl.
bell-name-clear = Geroepen om { $clock }
bell-muster = Naar het appèl
bell-late = { $minutes ->
    [one] Deze bel is 1 minuut te laat: de telefoon sliep of was dicht.
   *[other] Deze bel is { $minutes } minuten te laat: de telefoon sliep of was dicht.
}
bell-first-times = Vegen vanaf { $sweep }. Weg om { $out-by }.
bell-first-next = Leg dan weg wat vandaag geen werk meer nodig heeft.
bell-sweep-next = Zet uit, laat uitlopen; dan staan de klussen op volgorde klaar.
bell-last-next = Maak af of laat liggen wat er over is, en meld dat door weg te gaan. Of verzet je vertrektijd als je mag blijven.
bell-last-spark-next = De brandwacht heeft de tijd nodig die er nog is. Koud werk mag.
bell-lapsing-next = Laat je code opnieuw zien, of kom tot stilstand.
bell-lapsed-next = Als hij stilstaat, vraag dan iemand in de ruimte om je code te scannen.
bell-heard = Gehoord
bell-sweeping-now = Ik veeg nu
bell-go-on = Verder vegen
bell-have-left = Ik ben al weg
bell-more-how = Hoeveel langer?
bell-more-not = Wat je aan de deur bevestigde eindigt dan: in deze sessie kun je niet langer blijven.
bell-more-then = Dan vegen vanaf { $sweep }, weg om { $out-by }.
bell-more-spark = De laatste vonk schuift mee, naar { $clock }.
bell-more-costs = Het kost jou { NUMBER($minutes) } min van je avond, en wie op de ruimte wacht evenveel.
bell-more-until = Uiterlijk tot { $clock }: dan eindigt wat je aan de deur bevestigde.
bell-more-act = Weg om { $clock }
bell-left-why = Waarom is er dan niet geveegd?
bell-left-how = Zodat wie hierna komt weet wat er te wachten staat. Niemand krijgt de schuld.
bell-left-not-ticked = Het is gedaan, ik vinkte het niet af
bell-left-others-sweep = Iemand anders veegt
bell-left-had-to-go = Ik moest weg
bell-left-unsaid = Dat zeg ik liever niet
bell-more-time = Ik heb meer tijd nodig
bell-ask-again = Opnieuw vragen
bell-notice = { $machine }. { $next }

## What the hub calls out to a phone in a pocket (said by the service worker) and whether it can (Bench, Book)

call-watch-over = De brandwacht is voorbij.
call-watch-over-next = Kijk nog één keer waar het hete werk was; dan is het klaar.
call-not-sweeping = Iemand bij jou in de buurt is niet begonnen met vegen.
call-not-sweeping-next = Ga kijken en zeg dat het tijd is. Kom eerst in beeld, praat dan pas.
call-not-out = Iemand heeft op de laatste bel niet geantwoord.
call-not-out-next = Ruimte laat zien wie er nog is. Vraag of alles goed is.
call-long-past = Iemand is een half uur voorbij de vertrektijd.
call-long-past-next = Ruimte laat zien wie er nog is. Antwoordt er niemand, laat dan iemand gaan kijken.
call-watch-cut-short = Een brandwacht is ingekort.
call-watch-cut-short-next = Laat iemand naar gloeiende resten kijken waar het hete werk was, tot de tijd om is.
call-try = Een proef: de hub bereikt deze telefoon.
call-try-next = Er is niets aan de hand. Zo komt een bel.
call-unknown = Er is iets aan de beurt.
call-unknown-next = Open Sweepbell: daar staat wat.
call-late = { $minutes ->
    [one] Dat was 1 minuut geleden aan de beurt.
   *[other] Dat was { $minutes } minuten geleden aan de beurt.
}
pocket-armed = De hub belt deze telefoon, ook vergrendeld, waar beide netwerk hebben.
pocket-unasked = Vergrendeld in een zak wordt deze telefoon nog niet door de hub gebeld.
pocket-arm = Laat de hub hem bellen
pocket-refused = Deze telefoon laat geen bellen van deze pagina door als hij vergrendeld is. Zijn instellingen voor deze pagina bepalen dat.
pocket-home-screen = Deze browser belt een vergrendelde telefoon alleen voor een app op het beginscherm. Zet Sweepbell daar, open hem daar en kom terug naar deze regel.
pocket-unsupported = Deze browser kan niet gebeld worden terwijl hij dicht is.
pocket-unreached = Of de hub deze telefoon belt, is bekend zodra die weer bereikt wordt.
pocket-failed = De browser gaf geen adres om te bellen. Probeer het opnieuw waar netwerk is.
pocket-own-timer = Zet ook de wekker van de telefoon zelf.
pocket-more = Bellen in een broekzak
pocket-lit = Het scherm blijft aan.
pocket-dark = Het scherm kan uitgaan.
pocket-heard = Geluid staat aan.
pocket-mute = Geluid komt met de eerste aanraking.
pocket-timer-rings = De timer van de telefoon gaat om { $clock }, zoals je zei.
pocket-timer-late = Je timer gaat om { $clock }, na de veegbel: zet hem opnieuw.
pocket-in-view = In zicht
pocket-in-view-how = Zolang deze pagina in zicht is belt ze, trilt de telefoon waar dat kan, en flitst het scherm.
pocket-try-it = Laat nu bellen
pocket-only-a-try = Alleen een proef.
pocket-with-network = Vergrendeld, met netwerk
pocket-without-network = Vergrendeld, zonder netwerk
pocket-timer-for = Zet een timer in de klok van de telefoon op
pocket-timer-is-set = Ik heb hem gezet
pocket-calendar = Neem de bellen mee voor de agenda
pocket-calendar-how = Een reserve: sommige agenda's nemen het bestand over en laten de alarmen weg. Zijn de tijden veranderd, neem het dan opnieuw; het is dezelfde afspraak.
pocket-end = Niet meer bellen
pocket-manner = Hoe bellen komen
pocket-manner-mute = Flitsen en trillen, geen geluid
pocket-manner-mute-how = Het hele scherm flitst één keer per seconde, wat de telefoon ook over beweging zegt, en de telefoon trilt langer.
pocket-manner-say = Ook hardop gezegd
pocket-manner-night = Zachter van 22 tot 7
pocket-manner-board = Het bord van de ruimte noemt mij
pocket-manner-board-how = Voor deze sessie: zijn bel zegt dan voor wie die is.
pocket-on = aan
pocket-off = uit
pocket-try-hub = Bel hem als proef
pocket-try-comes = Over { NUMBER($seconds) } seconden belt de hub deze telefoon: vergrendel hem nu. Komt er niets, reken dan op de timer.
pocket-browsers = Wat browsers kunnen
pocket-on-android = Android, in de browser of op het beginscherm: geluid, trillen en een verlicht scherm zolang de pagina in beeld is; de hub belt hem vergrendeld, tenzij de telefoon dat tegenhoudt om stroom te sparen.
pocket-on-iphone-home = iPhone en iPad, op het beginscherm: geluid en een verlicht scherm zolang in beeld, geen trillen; de hub belt hem vergrendeld.
pocket-on-iphone-tab = iPhone en iPad, in een tabblad van de browser: geluid zolang in beeld, en niets bij vergrendeling. Zet Sweepbell op het beginscherm.
pocket-on-computer = Computer: geluid zolang in beeld; de hub belt hem zolang de browser draait. Niets trilt.

## The steel rule

rule-title = Je sessie als stalen liniaal
rule-past = voorbij
rule-work = werk
rule-sweep = vegen
rule-watch = brandwacht
rule-last-spark = laatste vonk
rule-out-by = weg om
rule-over = te laat
rule-says-out-by = Weg om { $at }.
rule-says = Eerste bel { $first-bell }, vegen vanaf { $sweep }, weg om { $out-by }.
rule-says-last-spark = Laatste vonk { $at }.

## The camera

scan-title = Scannen
scan-how = Houd de code in beeld. Een handbreedte afstand is ongeveer goed.
scan-typed = Of typ de naam die op de deur staat
scan-use-it = Gebruiken
scan-missing = Hier is geen camera.
scan-refused = Deze pagina mag de camera niet gebruiken.
scan-busy = Een ander programma heeft de camera.
scan-other = De camera start niet.
scan-missing-next = Typ de naam op de deur, of scan met een andere telefoon.
scan-refused-next = Sta het toe in de instellingen van de browser voor deze pagina, of typ de naam op de deur.
scan-busy-next = Sluit het andere programma, ga terug en scan opnieuw.

## Asking why

why-why = Waarom?
why-act = waarom?
why-all = Waarom deze tijden?

## What the app is not

cautions-title = Wat deze app niet kan
cautions-support = Hij helpt je oordelen. Hij is geen veiligheidsvoorziening.
cautions-no-interlock = Hij maakt een machine niet veilig, vergrendelt die niet en meet geen geluid.
cautions-defers = De regels van de werkplaats, plaatselijke voorschriften, het bevoegd gezag en erkende vakmensen gaan voor.
cautions-danger = In gevaar: stop, ga weg, bel het alarmnummer.

## What is looked up: fire, metals, finishes, shades

look-look-up = Opzoeken
look-fire = Brand
look-leave-first = Ga weg. Waarschuw de anderen. Bel.
look-small-only = Alleen een kleine brand, en alleen met de uitweg achter je. Twijfel je, ga dan weg. De regels van de werkplaats en de brandweer gaan voor.
look-gather = Hier verzamelen
look-way-out = Uitweg
look-no-way-out = Geen uitweg
look-doors = { $room }: deuren
look-burns = { $room }: wat brandt er?
look-none-written = { $room }: het reglement noemt geen blusser.
look-nothing-for-it = Hier is niets voor. Ga weg.
look-metal = Welk metaal is dit?
look-metal-how = Probeer een magneet op een kale plek en kras erin. Gewicht en maat maken het nauwer. Niets hier vervangt een etiket.
look-magnet = Een magneet
look-scratch = Een verse kras is
look-grams = Gewicht in g
look-shape = De maat is die van
look-tool = Gemeten met
look-may-be = Het kan zijn
look-dense = { $least } tot { $most } g/cm³, met de twijfel van weegschaal en liniaal erin.
look-no-metal = Niets hier past. Weeg en meet opnieuw; het kan hol zijn, gecoat, of een legering die niet in de lijst staat.
look-until-sure = Tot je het zeker weet, niet in: { $machines }.
look-air = Mag ik dit blik openen?
look-voc = VOS op het blik, in g/l
look-voc-hint = Gebruiksklaar, met verdunner en verharder erin. 1{ "\u00A0" }lb/gal is 120{ "\u00A0" }g/l. Geen getal? Laat het leeg.
look-place = Waar
look-no-place = Het reglement noemt geen plek voor verf of lijm. Vraag de beheerder.
look-in-the-room = { $room }, in de ruimte
look-yes-room = Ja, met de ventilator aan en het deksel erop tussen de streken.
look-yes-hood = Ja:
look-not-you = Nog niet:
look-too-much = Nee, te veel.
look-unsaid = Nee, niet zonder getal op het blik.
look-limit = Grens { NUMBER($g-per-l) } g/l: { $source }.
look-air-caution = Dit gaat alleen over oplosmiddeldamp. Isocyanaten en brand staan op het etiket van het blik.
look-shades = Lastinten
look-least-shade = De minste tint
look-shades-how = De minste die mag, ook voor wie helpt of kijkt. Begin donkerder en ga lichter tot je het werk ziet. 29 CFR 1910.133(a)(5).
look-table-ends = de tabel eindigt bij { NUMBER($most) }{ "\u00A0" }A
look-left-caution = Oren en handen: wat er vandaag over is tot een actiewaarde voor geluid of trillingen. Een schatting met gangbare waarden, zonder gehoorbescherming, geen meting. Ze blijft op deze telefoon.
look-burning-ordinary = Hout, papier, doeken
look-burning-liquid = Verf, oplosmiddel, olie
look-burning-gas = Gas
look-burning-live = Iets onder spanning
look-burning-metal = Metaal: krullen, stof
look-burning-oil = Bakolie
look-first-liquid = Nooit water.
look-first-gas = Draai de kraan dicht als je erbij kunt; een vlam die niet af te sluiten is laat je branden.
look-first-live = Eerst de stroom eraf, als je erbij kunt. Nooit water.
look-first-metal = Breng het zachtjes aan. Nooit water, schuim of CO2.
look-agent-water = water
look-agent-foam = schuim
look-agent-powder = poeder
look-agent-co2 = CO2
look-agent-clean-gas = schoon gas
look-agent-wet-chemical = vetblusmiddel
look-agent-metal-powder = metaalbrandpoeder
look-agent-dry-sand = droog zand
look-extinguisher = { $place }: { $agent }, gemerkt { $classes }.
look-extinguisher-live = { $place }: { $agent }, gemerkt { $classes }, en voor onder spanning.
look-magnet-holds = houdt
look-magnet-lets-go = laat los
look-colour-grey = grijs
look-colour-yellow = geel
look-colour-red = rood
look-shape-block = een blok
look-shape-round = een ronde staaf
look-shape-water = het water
look-tool-rough = liniaal of kan
look-tool-fine = schuifmaat of maatcilinder
look-size-length = Lengte in mm
look-size-width = Breedte in mm
look-size-height = Hoogte in mm
look-size-across = Diameter in mm
look-size-displaced = Verplaatst water in ml
look-sure-alone = het enige hier dat past
look-sure-fits = past
look-sure-edge = past alleen door de twijfel van de meting
look-candidate = { $least } tot { $most } g/cm³, { $sure }.
look-never-in = Nooit in: { $machines }.
look-caveat-brass-or-bronze = Messing en brons overlappen: gewicht en maat scheiden ze niet.
look-caveat-stainless = Ook sommig roestvast staal houdt geen magneet.
look-caveat-magnesium = Het kan magnesium zijn: geen vonken, niet slijpen, en nooit water erop als het brandt.
look-caveat-lead = Het kan lood zijn: geen stof, geen damp, en was je handen.
look-process-stick = Elektrode
look-process-wire = Draad, massief of gevuld
look-process-tig = TIG
look-process-plasma-cutting = Plasmasnijden
look-process-plasma-welding = Plasmalassen
look-process-air-carbon-arc = Koolboog met lucht
look-process-carbon-arc = Koolboog
look-process-gas-welding = Autogeen lassen
look-process-oxygen-cutting = Autogeen snijden
look-process-brazing = Hardsolderen met de brander
look-process-soldering = Zachtsolderen met de brander
look-shade = tint { NUMBER($shade) }
look-amperes-under = onder { NUMBER($edge) }{ "\u00A0" }A: tint { NUMBER($shade) }
look-plate-under = plaat onder { $edge }{ "\u00A0" }mm: tint { NUMBER($shade) }
look-amperes-from = vanaf { NUMBER($edge) }{ "\u00A0" }A: tint { NUMBER($shade) }
look-plate-from = plaat vanaf { $edge }{ "\u00A0" }mm: tint { NUMBER($shade) }
look-left-ears = oren: nog { $length }
look-left-hands = handen: nog { $length }
look-enough-ears = oren: genoeg voor vandaag
look-enough-hands = handen: genoeg voor vandaag
look-day-left-ears = Je oren hebben hier vandaag nog { $length }, volgens een schatting die niets meet.
look-day-enough-ears = Je oren hebben genoeg gehad voor vandaag, volgens een schatting die niets meet.
look-day-left-hands = Je handen hebben hier vandaag nog { $length }, volgens een schatting die niets meet.
look-day-enough-hands = Je handen hebben genoeg gehad voor vandaag, volgens een schatting die niets meet.

## A line of the log

facts-entered = Binnengekomen: { $about }
facts-attested = Bevestigd: { $about }
facts-started-for = Gestart: { $about }, voor { $material }
facts-started = Gestart: { $about }
facts-stopped = Gestopt: { $about }
facts-buddy = { $about } is buddy
facts-buddy-left = { $about } is geen buddy meer
facts-out-by-moved = Vertrektijd verzet
facts-sweep-started = { $crew ->
    [1] Begonnen met vegen, alleen
   *[other] Begonnen met vegen, { $crew } mensen
}
facts-done-photo = Gedaan, met een foto: { $about }
facts-done = Gedaan: { $about }
facts-round = Ronde: { $about }
facts-watch = De plek van het heet werk rondgelopen
facts-timer = Timer van de telefoon gezet
facts-clear = Riep iedereen naar buiten: { $about }
facts-bell-heard = Bel gehoord
facts-on-board = Het bord van de ruimte mag je noemen
facts-not-on-board = Het bord van de ruimte noemt je niet meer
facts-undone = Niet geveegd: { $why }
facts-undone-not-ticked = het is gedaan, niet afgevinkt
facts-undone-others-sweep = iemand anders veegt
facts-undone-had-to-go = moest weg
facts-undone-unsaid = niet gezegd
facts-clean = Het was schoon: { $about }
facts-mess = Het was vuil: { $about }
facts-mess-note = Het was vuil: { $about }. { $note }
facts-tagged = Buiten gebruik: { $about }. { $problem }
facts-tag-cleared = Label eraf: { $about }
facts-incident = De beheerder verteld: { $note }
facts-clock = De klok van de telefoon versprong { NUMBER($seconds) } s
facts-left = Weggegaan
facts-walked = Halte gelopen: { $about }
facts-walk-done = Alle haltes gelopen
facts-inducted = Rondgang gegeven: { $about }
facts-induction-back = Rondgang ingetrokken: { $about }
facts-signed-off = Afgetekend: { $about }
facts-sign-off-back = Aftekening ingetrokken: { $about }
facts-role = Rol gegeven: { $about }
facts-rules = Regels uitgegeven, nr. { NUMBER($number) }
facts-rules-why = Regels uitgegeven, nr. { NUMBER($number) }: { $note }
facts-newer = Iets van een nieuwere app: { $what }
facts-noted = { $about }: { $step }
facts-noted-words = { $about }: { $step }. { $note }

step-remarked = Opmerking
step-waits = Er wordt op een onderdeel gewacht
step-waits-until = Er wordt op een onderdeel gewacht, tot { $date }
step-mended = Gemaakt
step-checked = Door een tweede gecontroleerd
step-asked = Gevraagd
step-changed = Er is iets veranderd
step-seen-to = Afgehandeld

matter-found = Wat er gevonden is
matter-incident = Wat er verteld is
matter-session = Een avond

## What went wrong with the phone, its storage or the network: what happened, then what to do

faults-spare = Bewaard in de kleine opslag van de browser: de grote antwoordt niet.
faults-spare-next = Het telt. Laad opnieuw als je een hand vrij hebt, zodat het wordt overgezet.
faults-machine-code = Die code zit op een machine: { $name }.
faults-machine-code-next = Begin een sessie aan de deur en start hem dan op Bank.
faults-code-too-long = De namen van deze werkplaats zijn te lang voor een code.
faults-code-too-long-next = Gebruik het netwerk en zeg het de beheerder.
faults-buddy-here = { $name } is nu je buddy.
faults-buddy-gone = { $name } is je buddy niet meer.
faults-buddy-gone-next = Stop wat een buddy vraagt, of vraag iemand anders.
faults-six-figures = Dat zijn geen zes cijfers.
faults-pin-guessable = Die zou iedereen het eerst proberen.
faults-pin-guessable-next = Kies er zes die niet allemaal gelijk zijn en niet op- of aflopen.
faults-pin-wrong = Dat zijn niet de cijfers van je buddy.
faults-pin-wrong-next = Typ ze nog eens. Na vijf keer fout neemt deze telefoon er tien minuten geen aan.
faults-pin-rests = Op deze telefoon zijn te veel foute cijfers getypt.
faults-pin-rests-next = { $minutes ->
    [one] Wacht { NUMBER($minutes) } minuut, of vraag iemand met een telefoon.
   *[other] Wacht { NUMBER($minutes) } minuten, of vraag iemand met een telefoon.
}
faults-pin-unknown = Deze telefoon kan die cijfers niet controleren.
faults-pin-unknown-next = Laat hem de hub een keer bereiken, of vraag iemand met een telefoon.
faults-pin-kept = Dit zijn vanaf nu je cijfers.
faults-no-photo = Het deel van de app dat foto's maakt is niet aangekomen.
faults-no-photo-next = Je kunt verder zonder foto.
faults-clock-jumped = { $seconds ->
    [one] De klok van de telefoon versprong { $seconds } seconde.
   *[other] De klok van de telefoon versprong { $seconds } seconden.
}
faults-clock-jumped-next = De tijden van je sessie blijven zoals ze waren. Het staat in het logboek.
faults-forked = De server vertelt over deze telefoon iets anders dan de telefoon zelf.
faults-forked-next = Hier is niets verloren. Zeg het de beheerder voordat je verdergaat.
faults-other-tab = Een ander tabblad was sneller, dus dit is niet gedaan.
faults-other-tab-next = Kijk opnieuw en druk dan nog eens.
faults-full = De opslag van de telefoon is vol, dus dit is niet bewaard.
faults-full-next = Wat bewaard was is veilig en je sessie gaat door. Maak ruimte vrij en druk dan nog eens.
faults-lost = De opslag van de telefoon antwoordt niet, dus dit is niet bewaard.
faults-lost-next = Wat bewaard was is veilig. Druk nog eens; helpt dat niet, laad dan opnieuw.
faults-no-hub = De server van de werkplaats antwoordt niet.
faults-offline = Geen netwerk, of geen server.
faults-offline-next = Alles werkt zonder. Het wordt vanzelf opnieuw geprobeerd.
faults-not-joined = De server kent deze telefoon niet.
faults-not-joined-next = Vraag een beheerder om een code.
faults-pause = De server vraagt om een pauze.
faults-pause-next = Over { NUMBER($seconds) } s wordt het opnieuw geprobeerd.
faults-revoked = Deze telefoon staat niet meer op de lijst van de werkplaats.
faults-revoked-next = Wat hij niet heeft verstuurd, is er veilig op; het Boek zegt wat te doen. Vraag een beheerder om een code voor een andere telefoon.
faults-other-hub = Deze hub tekent met een sleutel die deze telefoon niet kent.
faults-other-hub-next = Hier is niets veranderd, en wat je hebt gaat door. Zeg het de beheerder.
faults-invite-used = Deze code is al gebruikt, en werkt één keer.
faults-invite-used-next = Vraag een beheerder om een nieuwe. Was jij het niet, zeg dat dan.
faults-invite-over = Deze code is verlopen of ingetrokken.
faults-invite-over-next = Vraag een beheerder om een nieuwe.
faults-card-seen = Deze telefoon kent nu de telefoon van { $name }.
faults-card-seen-next = Scan het antwoord, of laat het nog eens sturen.
faults-bad-card = Die kaart telt niet: verlopen, ingetrokken, of van een andere werkplaats.
faults-bad-card-next = Laat Sweepbell openen waar netwerk is, en de kaart nog eens tonen.
faults-word-taken = Vanaf nu telt het op deze telefoon.
faults-word-taken-next = De hub hoort het vanzelf.
faults-word-back = Deze telefoon weet dat het is ingetrokken.
faults-word-back-next = Vraag wie het introk hoe het verder gaat.
faults-others-word = Die code is niet voor deze telefoon, of van iemand die dit niet mag zeggen.
faults-others-word-next = Laat hem zien aan de telefoon van wie het is; of vraag een beheerder.
faults-newer-hub = De server is nieuwer dan deze app.
faults-newer-hub-next = Laad opnieuw als je niet in een sessie bent.
faults-wrong-code = Zo'n code is er niet
faults-wrong-code-next = Kijk nog eens, of vraag een beheerder om een nieuwe.
faults-unknown-member = Onbekend lid
faults-unknown-member-next = De ledenlijst van de werkplaats kent deze persoon niet. Vraag de beheerder.
faults-joined-for-another = Doet mee voor een ander lid
faults-joined-for-another-next = Dit apparaat tekent al voor een ander lid. Wis de gegevens om het opnieuw te laten meedoen.
faults-hub-failed = Fout van de server
faults-hub-failed-next = De server faalde. Wat je stuurde staat nog op je apparaat; het wordt opnieuw verstuurd.
faults-hub-answered = De server antwoordde { NUMBER($status) }.

## Which time is another now, and why

moved-last-spark = Laatste vonk { $at }
moved-first-sweep-from = Vegen vanaf { $at }
moved-sweep-from = vegen vanaf { $at }
moved-first-out-by = Weg om { $at }
moved-out-by = weg om { $at }
moved-no-more = niet meer
moved-told = { $times }: { $cause }
moved-started = je startte { $machine }.
moved-stopped = je stopte { $machine }.
moved-out-by-moved = je verzette je vertrektijd.
moved-sweep-started = { $crew ->
    [1] je veegt alleen.
   *[other] jullie vegen met { $crew }.
}
moved-done = gedaan: { $text }
moved-other-came = { $who } kwam binnen en gaat misschien als laatste weg.
moved-other-left = { $who } ging weg, en de laatste klussen van de ruimte zijn misschien voor jou.
moved-learned = er is gezien hoe lang dit duurt: { $text }

## What stands beside a sign on the sheet of a machine

signs-wear-eyes = oogbescherming
signs-wear-ears = gehoorbescherming
signs-wear-face = gelaatsscherm, over de bril
signs-wear-toes = schoenen met neus
signs-wear-sleeves = lange mouwen
signs-wear-gloves = handschoenen
signs-wear-mask = masker
signs-wear-weld-shade = laskap, op de juiste tint
signs-wear-loose = haar en koordjes weggestopt
signs-never-gloves = handschoenen
signs-never-loose = alles wat los zit: haar, koordjes, sjaals
signs-never-rings = ringen en armbanden
signs-never-sleeves = losse mouwen

## Metals, by the words that rulebooks have for them

metal-mild-steel = zacht staal
metal-cast-iron = gietijzer
metal-stainless-steel = roestvast staal
metal-tool-steel = gereedschapsstaal
metal-aluminium = aluminium
metal-copper = koper
metal-brass = messing
metal-bronze = brons
metal-titanium = titanium
metal-magnesium = magnesium
metal-zinc = zink
metal-lead = lood
metal-tin = tin
metal-nickel = nikkel
metal-hardened-steel = gehard staal
metal-galvanised-steel = verzinkt staal
metal-painted-steel = geverfd staal

## Refusals: why, in one sentence, and what to do next

refusal-not-a-member = De persoon van deze telefoon staat niet op de ledenlijst.
refusal-not-inducted = Je rondgang staat nog niet vast.
refusal-card-expired = Je kaart is verlopen: deze telefoon heeft de hub te lang niet gesproken.
refusal-induction-expired = Je rondgang is verlopen.
refusal-no-such-room = Deze werkplaats heeft geen ruimte die { $room } heet.
refusal-already-in = Je bent al in: { $room }.
refusal-not-attested = Nog te bevestigen: { $text }
refusal-attestation-lapsed = Wat je aan de deur bevestigde is verlopen; het is lang geleden.
refusal-out-by-out-of-range = Op die tijd kan deze sessie niet eindigen.
refusal-no-session = Je hebt geen sessie.
refusal-has-left = Deze sessie is voorbij.
refusal-sweeping = Je bent aan het vegen; machines blijven nu uit.
refusal-no-such-machine = Deze werkplaats heeft geen machine die { $machine } heet.
refusal-machine-elsewhere = { $machine } staat in een andere ruimte: { $room }.
refusal-tagged-out = { $machine } is buiten gebruik: { $problem }.
refusal-not-signed-off = Je bent nog niet afgetekend voor { $machine }.
refusal-sign-off-expired = Je aftekening voor { $training } is verlopen.
refusal-sign-off-stale = { $training } is meer dan { NUMBER($days) } dagen geleden voor het laatst gedaan.
refusal-material-refused = { $machine } mag geen { $material } bewerken.
refusal-no-buddy = { $machine } vraagt een buddy, en niemand heeft bevestigd.
refusal-past-last-spark = De laatste vonk is voorbij: een brandwacht van { NUMBER($watch-minutes) } minuten zou niet op tijd klaar zijn.
refusal-already-running = { $machine } draait al.
refusal-not-running = { $machine } draait niet.
refusal-own-buddy = Niemand kan de eigen buddy zijn.
refusal-buddy-elsewhere = { $buddy } is ergens anders aangemeld: { $room }.
refusal-buddy-full-one = { $buddy } is nu de buddy van iemand anders.
refusal-buddy-full = { $buddy } is al buddy van { NUMBER($covers) } mensen.
refusal-buddy-operates = { $buddy } werkt aan een machine die een buddy vraagt.
refusal-not-a-buddy = Die persoon is nu je buddy niet.
refusal-no-such-chore = Die klus hoort niet bij deze sessie.
refusal-chore-done = Die klus is al gedaan.
refusal-chore-waits = Eerst komt iets anders: { $first }
refusal-no-such-round = Deze werkplaats heeft geen ronde die { $round } heet.
refusal-no-watch = Er loopt geen brandwacht.
refusal-no-words = Er is niets geschreven.
refusal-too-long = Dat is te lang om te bewaren.
refusal-not-tagged = { $machine } is niet buiten gebruik.
refusal-not-mended = Niemand heeft gezegd dat { $machine } gemaakt is.
refusal-second-person = Jij hebt { $machine } gemaakt: iemand anders controleert hem.
refusal-stewards-act = Alleen een beheerder kan dit doen.
refusal-not-a-signer = Jij tekent anderen niet af: { $training }.
refusal-own-sign-off = Niemand tekent zichzelf af.
refusal-last-steward = Er is verder niemand die deze werkplaats beheert.
refusal-no-such-member = In de ledenlijst staat niemand die { $person } heet.
refusal-no-such-training = Geen machine vraagt om { $training }.
refusal-no-such-stop = De rondgang heeft zo’n halte niet.
refusal-other-answer = Net niet. { $because }
refusal-no-crew = Er veegt minstens één persoon.
refusal-cannot-plan = Het vegen is niet te plannen: { $why }.
refusal-next-not-a-member = Vraag een beheerder om je toe te voegen en probeer het dan opnieuw.
refusal-next-not-inducted = Vraag een beheerder om de rondgang door de ruimte; die duurt ongeveer een half uur.
refusal-next-card-expired = Open Sweepbell één keer waar netwerk is. Helpt dat niet, vraag een beheerder.
refusal-next-induction-expired = Vraag een beheerder om een opfrisser.
refusal-next-no-such-room = Scan de code bij de deur opnieuw.
refusal-next-already-in = Ga naar Bank, of ga eerst uit die sessie weg.
refusal-next-not-attested = Bevestig het, of kom een andere dag terug.
refusal-next-attestation-lapsed = Ga weg, rust uit en begin een nieuwe sessie aan de deur.
refusal-next-out-by-out-of-range = Kies een tijd tussen de twee die er staan.
refusal-next-no-session = Scan eerst de code bij de deur.
refusal-next-has-left = Scan de code bij de deur om opnieuw te beginnen.
refusal-next-sweeping = Maak de klussen af; begin een nieuwe sessie als je de machine nodig hebt.
refusal-next-no-such-machine = Kies een machine uit de lijst.
refusal-next-machine-elsewhere = Begin een sessie in die ruimte: { $room }.
refusal-next-tagged-out = Gebruik een andere machine. Hij is er weer als hij gemaakt is en een tweede hem heeft gecontroleerd.
refusal-next-not-signed-off = Vraag om een aftekening: { $training }.
refusal-next-sign-off-expired = Vraag om een opfrisser voordat je hem gebruikt.
refusal-next-sign-off-stale = Vraag iemand die aftekent om het één keer met je door te nemen.
refusal-next-material-refused = Gebruik een machine die voor dat materiaal bedoeld is.
refusal-next-no-buddy = Vraag iemand in de ruimte om je code te scannen.
refusal-next-past-last-spark = Doe nu koud werk, of verzet je vertrektijd als je langer kunt blijven.
refusal-next-already-running = Er hoeft niets te gebeuren.
refusal-next-own-buddy = Vraag iemand anders in de ruimte.
refusal-next-buddy-elsewhere = Vraag iemand die in deze ruimte is.
refusal-next-not-a-buddy = Laat je code zien als je een buddy nodig hebt.
refusal-next-no-such-chore = Kies een klus uit de lijst.
refusal-next-chore-waits = Doe die eerst.
refusal-next-no-such-round = Kies een ronde uit de lijst.
refusal-next-no-watch = Ga gewoon door.
refusal-next-no-words = Zeg in een paar woorden wat er is.
refusal-next-too-long = Zeg het in { NUMBER($most) } tekens of minder.
refusal-next-not-tagged = Hij kan worden gebruikt.
refusal-next-not-mended = Wie hem maakt, zegt dat eerst bij deze machine.
refusal-next-second-person = Vraag iemand die ermee mag werken, of een beheerder.
refusal-next-stewards-act = Vraag een beheerder.
refusal-next-not-a-signer = Vraag iemand die dat wel doet: in het Boek staat wie.
refusal-next-own-sign-off = Vraag iemand anders die het mag.
refusal-next-last-steward = Geef de rol eerst aan iemand anders.
refusal-next-no-such-member = Kies iemand uit de lijst.
refusal-next-no-such-training = Kies een training uit de lijst.
refusal-next-no-such-stop = Kies een halte uit de lijst.
refusal-next-other-answer = Kijk nog eens en kies een ander antwoord.
refusal-next-no-crew = Zeg met hoeveel jullie vegen.
refusal-next-cannot-plan = Begin vroeg met vegen en vertel de beheerder wat hier staat.
refusal-impossible-unknown-room = er is geen ruimte `{ $room }` in het reglement
refusal-impossible-unknown-machine = er is geen machine `{ $machine }` in het reglement
refusal-impossible-no-crew = niemand is er om af te sluiten: de ploeg is 0
refusal-impossible-too-few-people = `{ $chore }` vraagt { NUMBER($hands) } mensen tegelijk, en er zijn er { NUMBER($crew) }
refusal-impossible-no-gear = `{ $chore }` vraagt `{ $gear }`, en de werkplaats heeft er geen
refusal-impossible-cycle = `{ $chore }` wacht, via andere klussen, op zichzelf

## The rule behind a refusal, its numbers and its source

because-not-a-member = Sessies zijn voor leden.
because-not-inducted = Eerst komt de rondgang door de ruimte.
because-card-expired = Een kaart geldt 60 dagen en wordt vernieuwd zodra de telefoon de hub spreekt.
because-induction-expired = Een rondgang geldt tot een datum.
because-no-such-room = Alleen wat daar geschreven staat telt.
because-already-in = Niemand is op twee plekken.
because-not-attested = Eerst elke verklaring, één voor één, op volgorde.
because-attestation-lapsed = Het geldt voor één sessie.
because-out-by-out-of-range = Niet te vroeg om te vegen, niet te laat.
because-no-session = Alleen in een sessie.
because-sweeping = Het vegen is gepland voor wat ervoor draaide.
because-machine-elsewhere = Een sessie is voor één ruimte.
because-tagged-out = Een label blijft tot het gevaar weg is.
because-second-person = Voor een machine teruggaat is gereedschap weg, zijn schermen terug en staat iedereen vrij: twee mensen zien dat.
because-not-signed-off = Een aftekening voor de training, tot een datum.
because-sign-off-stale = Handen vergeten wat ze niet doen.
because-material-refused = Het schaadt de machine, of jou.
because-no-buddy = Iemand in de ruimte moet er al die tijd voor je zijn.
because-past-last-spark = Na een vonk komen de brandwacht en elke klus.
because-already-running = Het is al zo.
because-own-buddy = Een buddy helpt als jij het niet kunt.
because-buddy-elsewhere = Een buddy kan je zien en horen.
because-buddy-full = Een buddy heeft maar voor zo veel mensen ogen.
because-buddy-operates = Wie een buddy nodig heeft, heeft geen ogen voor jou.
because-not-a-buddy = Alleen een gegeven woord kan worden teruggenomen.
because-chore-waits = Sommige klussen maken andere ongedaan.
because-no-watch = Een brandwacht volgt op heet werk.
because-no-words = Wie het leest heeft alleen jouw woorden.
because-stewards-act = Een beheerder staat in voor de ruimte.
because-not-a-signer = Wie aftekent, staat in voor een training.
because-own-sign-off = Twee zien meer dan één.
because-last-steward = Een werkplaats heeft iemand die haar beheert.
because-other-answer = Later sta je er alleen mee.
because-no-crew = Elke klus heeft zijn handen en zijn beurt.
because-source = Bron: { $source }.
because-ours = eigen regel van Sweepbell
because-book = reglement
because-book-key = reglement, { $key }
because-members = ledenlijst
because-practice = gangbaar gebruik, geen bron
because-book-and-members = reglement, { $key }; ledenlijst
because-buddy-source = reglement, { $key }; 29 CFR 1915.84 noemt geen minuten
because-until = Tot { $at }.
because-between = { $earliest } tot { $latest }.
because-since = Sinds { $at }.
because-last-use = Laatst { $at }; hoogstens { NUMBER($days) } dagen.
because-no-use-known = Er is geen gebruik bekend; hoogstens { NUMBER($days) } dagen.
because-word-holds = Een woord geldt { NUMBER($minutes) } min.
because-last-spark = Laatste vonk { $at }, brandwacht { NUMBER($minutes) } min.
because-at-most = Hoogstens { NUMBER($most) }.
because-characters = { $most ->
    [one] Hoogstens { $most } teken.
   *[other] Hoogstens { $most } tekens.
}

## Why a time is what it is

plan-out-by = Weg om
plan-sweep-from = Vegen vanaf
plan-first-bell = Eerste bel
plan-last-spark = Laatste vonk
plan-watch-until = Brandwacht tot
plan-free-at = Vrij om
plan-rule-said = Dat zei je zelf. Je kunt het verzetten.
plan-rule-chores-fit = Dan begonnen zijn de klussen klaar op de vertrektijd.
plan-rule-floor = De klussen vragen niet meer dan de werkplaats reserveert.
plan-rule-before-sweep = Tijd om af te maken waar je mee bezig bent.
plan-rule-watch-and-chores-fit = Een vonk dan laat tijd voor de brandwacht en elke klus.
plan-rule-spark-not-after-sweep = Geen vonk zodra het vegen begint.
plan-rule-watch-from-last-spark = Hij begint bij de laatste vonk.
plan-rule-watch-from-end = Hij begon toen het heet werk ophield. Een nieuwe vonk laat hem opnieuw beginnen.
plan-rule-all-from-now = Als je nu begint met vegen; nooit voordat een brandwacht voorbij is.
plan-rule-after-watch = Het heet werk eindigde laat: eerst de brandwacht, dan het vegen. De vertrektijd is niet te halen.
plan-source-said = wat jij zei
plan-source-chores = de klussen en de reserve van het reglement
plan-source-reserve = de reserve van het reglement
plan-source-watch = de brandwacht van het reglement; 29 CFR 1910.252(a)(2)(iii)(B): een half uur of langer, en plaatselijke voorschriften
plan-crew = { $count ->
    [1] Er veegt één persoon.
   *[other] Er vegen { $count } mensen.
}
plan-chore = { NUMBER($minutes) } min{ $how }. { $owner }: { $text } ({ $from })
plan-by-itself = , gaat vanzelf
plan-together = , { NUMBER($count) } mensen samen
plan-with-gear = , met { $gear }
plan-learnt = Wat gezien is volstaat { NUMBER($enough-pct) } van de 100 keer; de minuten van het reglement tellen { NUMBER($prior-weight) } keer.
plan-order-best = In totaal { NUMBER($minutes) } min; geen volgorde is korter.
plan-order-near = In totaal { NUMBER($minutes) } min; hoogstens { NUMBER($gap) } min te lang.
plan-bound = { $bound }: { NUMBER($minutes) } min.
plan-floor-minutes = Nooit wordt minder dan { NUMBER($minutes) } min gereserveerd.
plan-first-bell-minutes = { NUMBER($minutes) } min voor het vegen.
plan-watch-exclusive = De brandwacht vraagt één persoon { NUMBER($minutes) } min.
plan-watch-shared = De brandwacht duurt { NUMBER($minutes) } min, en wie waakt mag intussen vegen.
plan-hot-work-ended = Het heet werk eindigde om { $at }.
plan-no-later = Uiterlijk { $at }: geen sessie is langer.
plan-now = Gerekend vanaf { $at }.
plan-from-book = reglement
plan-from-use = reglement, voor { NUMBER($minutes) } min gebruik
plan-from-cap = het hoogste van het reglement, voor { NUMBER($minutes) } min gebruik
plan-from-log = { $times ->
    [1] één keer gezien
   *[other] { $times } keer gezien
}
plan-bound-critical-path = Alleen al de klussen die op elkaar wachten
plan-bound-work = Al het werk, verdeeld over wie vrij is
plan-bound-gear = Alleen al de klussen die hetzelfde gereedschap willen
plan-bound-hands = De klussen van veel handen, die elkaar in de weg zitten
plan-bound-watch = Alleen al de brandwacht
plan-time = { $name }: { $at }
plan-source = Bron: { $source }.
plan-assumed = Aangenomen wordt:
plan-assumes-last-out = Voor zover bekend is niemand anders in de ruimte, dus de laatste klussen zijn voor jou.
plan-assumes-others-sweep = Voor zover bekend zijn anderen in de ruimte, dus de laatste klussen zijn voor hen.
plan-assumes-gear-is-free = Gereedschap is vrij als je het nodig hebt: { $gear }.
plan-assumes-one-sweeps = Je veegt alleen; zijn jullie met meer, dan telt dat zodra het vegen begint.
plan-assumes-run-until-sweep = Machines die nog draaien gaan door tot het vegen.

## A buddy's answer that does not count

answer-ask-too-old = Deze vraag is verlopen.
answer-other-ask = Dat antwoord hoort bij een andere vraag.
answer-used-before = Dat antwoord is al gebruikt.
answer-oneself = Een buddy is iemand anders.
answer-signature = Dat antwoord is niet heel, of niet voor deze ruimte.
answer-unknown-phone = Deze telefoon kent de telefoon van je buddy nog niet.
answer-other-person = Die telefoon is van iemand anders.
answer-board-code = Het bord liet die code daarnet niet zien.
answer-next-board-code = Laat je buddy het bord nog eens lezen, of laat de code weg.
answer-next-ask-too-old = Laat een nieuwe code zien en laat die opnieuw scannen.
answer-next-other-ask = Laat je buddy de code scannen die nu op je scherm staat.
answer-next-oneself = Vraag iemand in de ruimte om je code te scannen.
answer-next-signature = Laat je buddy je code opnieuw scannen, hier in de ruimte.
answer-next-unknown-phone = Laat de kaart tonen uit het Boek, scan die, en dan het antwoord. Of vraag iemand anders.
answer-next-other-person = Laat je buddy de eigen telefoon gebruiken.

## A code that could not be read

code-other-shop = Deze code is van een andere werkplaats ({ $host }).
code-newer = Deze code is gemaakt door een nieuwere app.
code-damaged = Deze code kwam niet heel over.
code-foreign = Dit is geen code van deze werkplaats.
code-next-other-shop = Scan een code die in deze werkplaats hangt.
code-next-newer = Laad de nieuwste app en scan opnieuw.
code-next-damaged = Maak de lens schoon, houd stil, scan opnieuw.
code-next-foreign = Scan de code bij de deur, of die op de andere telefoon.

## A line that the hub did not take

entry-damaged = Deze regel is veranderd nadat hij ondertekend was.
entry-other-device = Deze regel is door een andere telefoon ondertekend.
entry-gap = Eerdere regels hebben de werkplaats niet bereikt.
entry-fork = De werkplaats heeft op deze plek al een andere regel.
entry-declared-lost = Het logboek van de werkplaats ging zonder deze regel verder.
entry-other-member = Deze regel spreekt voor een ander lid.
entry-unreadable = De werkplaats kan deze regel niet lezen.
entry-not-allowed = Deze regel zegt wat dit lid niet mag zeggen.
entry-unknown = De werkplaats heeft deze regel niet geteld.
entry-next-damaged = Hij blijft op deze telefoon. Laat hem aan de beheerder zien.
entry-next-other-device = Stuur hem vanaf de telefoon die hem schreef.
entry-next-gap = Niets te doen: ze gaan de volgende keer samen mee.
entry-next-fork = Laat hem aan de beheerder zien en doe opnieuw mee met een nieuwe code.
entry-next-unreadable = Laad de nieuwste app en laat hem dan aan de beheerder zien.
entry-next-not-allowed = Vraag een beheerder om het te zeggen.

## Het wandbord

board-title = Bord
board-code = Code voor buddy's
board-no-room = Die ruimte staat niet in het reglement.
board-with = met { $names }
board-tagged = { $machine } is buiten gebruik: { $problem }
board-no-hub = Nu geen hub: dit is wat het laatst bekend was.
board-bell-sweep = { $clock }: iemand begint nu met vegen. Kijk op van je werk.
board-bell-watch = { $clock }: een brandwacht is voorbij. Kijk nog eens waar heet gewerkt is.
board-bell-last = { $clock }: iemand is voorbij de vertrektijd.
board-bell-clear = { $clock }: iedereen naar buiten. Schakel uit en ga langs de kortste weg. Dan het appèl.
board-bell-for = { $name }. { $words }
board-touch-once = Raak dit bord één keer aan: pas dan mag de browser bellen.
board-watch = { $minutes ->
    [one] brandwacht, nog 1 minuut
   *[other] brandwacht, nog { $minutes } minuten
}
board-watch-over = brandwacht is voorbij

## De eerste pagina's, één keer

welcome-title-time = Het houdt je tijd bij
welcome-title-each-other = Jullie letten op elkaar
welcome-title-home-screen = Houd het bij de hand
welcome-time = Zeg hoe laat je weg moet zijn. Sweepbell rekent van daar terug: wanneer je stopt met heet werk, wanneer je veegt.
welcome-rule = Deze liniaal is je sessie. Hij luidt als er nog tijd is.
welcome-buddy = Sommige machines vragen om een buddy. Jullie laten elkaar een code zien; een netwerk is niet nodig.
welcome-unwatched = Niemand wordt bekeken. Nee zeggen bij de deur wordt nergens opgeschreven, en weggaan kan altijd.
welcome-caution = Het maakt geen machine veilig. Je opleiding en de regels van de werkplaats gaan voor.
welcome-why-home-screen = Vanaf het beginscherm opent het meteen, zonder netwerk.
welcome-is-there = Het staat er al.
welcome-browser-asks = Deze browser kan het er voor je neerzetten.
welcome-by-share-sheet = Druk op de deelknop van de browser en dan op ‘Zet op beginscherm’.
welcome-by-menu = Open het menu van de browser en dan ‘Installeren’ of ‘Toevoegen aan startscherm’.
welcome-on-computer = Op een computer: het teken aan het eind van de adresbalk, of het menu van de browser, en dan ‘Installeren’. Een bladwijzer kan ook.
welcome-install = Zet het er neer
welcome-next = Verder
welcome-begin = Naar de deur
welcome-skip = Overslaan

## Today: what needs the steward

today-needs = Wat jou nodig heeft
today-none = Voor zover deze telefoon weet heeft nu niets jou nodig.
today-who-is-in = Wie binnen is
today-past-out-by = { $name } in { $room } wilde om { $out-by } weg zijn.
today-past-out-by-next = Bel, of laat iemand gaan kijken. Neemt niemand op, ga er dan heen of roep hulp in.

walk-left = Nog { NUMBER($left) } van { NUMBER($count) } te lopen
walk-how = Ga naar elke plek en scan daar de code. Lees of hoor wat er staat; wordt er iets gevraagd, geef antwoord. Niemand telt foute antwoorden.
walk-changed-how = Er is iets veranderd sinds jouw rondgang. Alleen dat loop je opnieuw.
walk-done-how = Je hebt alles gelopen. Een beheerder rondt het nu met je af.
walk-inducted = Je rondgang geldt tot { $day }. Er is niets nieuws te lopen.
walk-scan = Scan een halte
walk-next = Scan de volgende halte
walk-aloud = Lees het voor
walk-seen = Gezien en begrepen
walk-read = Ik heb het gelezen
walk-behind = Deze heb je gehad.
walk-show = Laat dit aan de beheerder zien
walk-show-how = Die scant het onder Mensen en zegt dat je rondgang geldt. Netwerk is niet nodig.
walk-code = Dat je alles hebt gelopen, als code
walk-stops = De haltes
walk-stops-how = Ontbreekt daar een code? Raak de regel aan.
walk-door = Aan de deur, elke keer
walk-state-behind = gelopen
walk-state-changed = sindsdien veranderd
walk-state-ahead = nog te lopen
standing-induction = Rondgang
standing-to-walk = Naar de rondgang
standing-may = Wat je mag gebruiken
standing-may-none = Nog niets. Na de rondgang mag je vegen en buddy zijn.
standing-next = Wat er volgt
standing-next-none = Je bent hier voor alles afgetekend.
standing-no = nog niet
standing-until = tot { $day }
standing-use-before = tot { $day }, mits gebruikt voor { $before }
standing-lapsed = verlopen op { $day }
standing-stale = { NUMBER($days) } dagen niet gebruikt: neem het één keer door met wie aftekent
standing-signers = Tekent af: { $names }
standing-no-signers = Hier tekent nog niemand voor af. Vraag een beheerder.
standing-shown-how = Net afgetekend? Scan de code op die telefoon, en het telt hier meteen.
standing-scan = Scan die code
people-name = Naam
people-name-hint = Een deel ervan is genoeg.
people-scan = Scan iemands rondgang
people-nobody = Niemand hier heeft dat in de naam.
people-more = { $count ->
    [one] en nog één: typ meer van de naam
   *[other] en nog { $count }: typ meer van de naam
}
people-others = Zoek iemand anders
people-role-member = lid
people-role-signer = tekent anderen af
people-role-steward = beheerder
people-walked = Alle haltes zijn gelopen, zoals ze nu zijn.
people-walked-next = Vraag wat er te zien was, en rond het hieronder af.
people-walked-other = Die rondgang is van andere regels dan deze telefoon heeft.
people-walked-other-next = Laat beide telefoons de hub ontmoeten en kijk dan nog eens.
people-sign-offs = Aftekeningen
people-unknown = Waarvoor al is afgetekend, weet deze telefoon niet. Die van henzelf wel.
people-induct = Rondgang geldt
people-induct-again = Rondgang opnieuw
people-take-back = Intrekken
people-take-back-spoken = Intrekken: { $training }
people-sign = Aftekenen
people-sign-spoken = Aftekenen: { $training }
people-together = Samen, bij de machine. Raak elke regel aan als hij gedaan is.
people-tick-all = Als elke regel gedaan is, kan het worden getekend.
people-signed = Alles is gedaan: teken
people-show = Laat dit aan die telefoon zien
people-show-how = { $name } scant het onder ‘Wat ik mag gebruiken’. Daar telt het meteen, zonder netwerk.
people-code = Wat is getekend, als code
people-role = Rol
people-role-how = Wie aftekent, tekent anderen af op machines. Een beheerder zorgt voor de werkplaats. Er is altijd minstens één beheerder.
people-leaves = Vertrek
people-held = Neem mee wat over hen bewaard is
people-leave-how = De telefoons gaan eraf en alles wat de hub bewaart wordt gewist, behalve wat nog geldt, zoals een kaart aan een machine. Voorgoed.
people-leave = Verlaat de werkplaats
people-leave-sure = Voorgoed: eraf en wissen
people-left = { $count ->
    [one] Eén regel is gewist, en de telefoons zijn eraf.
   *[other] { $count } regels zijn gewist, en de telefoons zijn eraf.
}
people-left-next = Haal ook de regels uit het ledenbestand.

## The rulebook desk

rules-how = Hier geschreven, en voor niemand van kracht tot het is uitgegeven. Lopende sessies houden de regels waarmee ze begonnen.
rules-toml = Het reglement, als TOML
rules-problems = Wat er mis is
rules-place = Regel { NUMBER($line) }, kolom { NUMBER($column) }.
rules-no-problem = Geen probleem gevonden.
rules-orphans = Draait nu, en staat niet in dit reglement: { $machines }.
rules-orphans-next = Wacht tot ze stilstaan. Wordt het toch uitgegeven, dan houdt wie ze gebruikt de oude regels tot vertrek.
rules-changes = Wat het verandert
rules-no-changes = Niets, vergeleken met de geldende regels.
rules-evening = Een avond proberen
rules-evening-how = Elke aanraking is een half uur langer aan een machine. Er wordt niets opgeschreven.
rules-evening-change = Verander de avond, of de regels.
rules-used = { $name }, { $length }
rules-crew = { $count ->
    [one] Eén persoon veegt
   *[other] { $count } mensen vegen
}
rules-evening-none = Geen avond
rules-step = { $from } tot { $to }: { $what }
rules-reserve = Er wordt { NUMBER($minutes) } min vrijgehouden voor het vegen.
rules-publishing = Uitgeven
rules-publishing-how = Meteen van kracht voor elke sessie die begint, op elke telefoon zodra die de hub bereikt.
rules-note = Waarom, in een paar woorden
rules-not-ready = Er valt iets uit te geven zodra er geen probleem is en er iets verschilt.
rules-publish = Deze regels uitgeven
rules-publish-sure = Voor iedereen van kracht: uitgeven
rules-published = Uitgegeven als nummer { NUMBER($number) }.
rules-in-force = Terug naar de geldende regels
rules-before = Wat is uitgegeven
rules-none-before = Nog niets: het bestand van de werkplaats geldt.
rules-version = { NUMBER($number) }, { $when }, door { $by }
rules-put-back = Zet het in de tekst
rules-starts = Om mee te beginnen
rules-start-metal = Een metaalruimte
rules-start-wood = Een houtruimte
rules-start-mixed = Beide
## Figures: what months were like, for the steward and the board

figures-this-month = Deze maand
figures-last-month = Vorige maand
figures-all = Alles wat bewaard is
figures-of = Over welke tijd?
figures-from-to = { $from } tot { $to }
figures-counted = Geteld op deze telefoon, uit alles wat die van het logboek gehoord heeft.
figures-demo = Proefgegevens: werkplaats, leden en logboek zijn verzonnen.
figures-sheet = Druk dit op één blad af
figures-files = Neem het logboek mee
figures-files-how = Het hele logboek zoals de server het heeft, voor andere programma's. Er staan leden in: wie het doorgeeft, staat ervoor in. In tabellen staat een apostrof voor een tekst die een rekenblad voor een formule zou houden.
figures-file-log = Elke regel van het logboek (JSON lines)
figures-file-calendar = Sessies en rondes die moeten (agenda)
figures-file-table = { $name } (tabel)
figures-table-sessions = Sessies
figures-table-uses = Gebruik van machines
figures-table-chores = Klussen
figures-table-rounds = Rondes
figures-table-finds = Wat gevonden is
figures-table-tags = Labels
figures-table-incidents = Voorvallen
figures-none = Niets daarvan.
figures-sessions = Sessies
figures-people = Mensen
figures-there = Tijd in de ruimtes
figures-open = Nog open
figures-busy = Drukke uren
figures-busy-how = Uren dat er mensen waren, bij elkaar, per weekdag. Elke kolom is drie uur vanaf het uur erboven.
figures-weekday = Dag
figures-monday = ma
figures-tuesday = di
figures-wednesday = wo
figures-thursday = do
figures-friday = vr
figures-saturday = za
figures-sunday = zo
figures-machines = Uren per machine
figures-machine = Machine
figures-uses = Keer
figures-time = Tijd
figures-more-machines = { $count ->
    [one] Nog één machine
   *[other] Nog { NUMBER($count) } machines
}
figures-sweeps = Hoe ruimtes zijn achtergelaten
figures-complete = Alles gedaan
figures-incomplete = Iets blijven liggen
figures-not-begun = Daarvan nooit geveegd
figures-how = Hoe
figures-times = Keer
figures-left = Blijven liggen
figures-reserve = De reserve en de praktijk
figures-reserve-said = { NUMBER($within) } van { NUMBER($of) } hele veegbeurten waren op tijd klaar, en { NUMBER($chores-within) } van { NUMBER($chores-of) } gemeten klussen duurden niet langer dan gepland. Het reglement vraagt { NUMBER($asked) } van 100 klussen.
figures-reserve-none = Geen hele veegbeurt om de reserve aan te meten.
figures-ended = Klaar
figures-sweeps-of = Veegbeurten
figures-early-over = meer dan { NUMBER($minutes) } min te vroeg
figures-early = { NUMBER($from) } tot { NUMBER($to) } min te vroeg
figures-on-time = tot { NUMBER($minutes) } min te vroeg, of precies
figures-late = { NUMBER($from) } tot { NUMBER($to) } min te laat
figures-late-up-to = tot { NUMBER($minutes) } min te laat
figures-late-over = meer dan { NUMBER($minutes) } min te laat
figures-safety = Buddy's en brandwachten
figures-what = Wat
figures-buddy-uses = Gebruik dat een buddy vraagt
figures-buddy-gaps = Gaten zonder buddy
figures-watches-needed = Brandwachten nodig
figures-watches-kept = Tot het eind gehouden
figures-watches-cut = Ingekort
figures-found = Hoe het werd aangetroffen
figures-found-how = Alleen wat iemand opschreef. Waar vaker gekeken wordt, wordt meer gevonden: lees beide kolommen.
figures-place = Plek
figures-mess = Troep
figures-clean = Schoon
figures-mess-hours = Troep gevonden, per uur van de dag
figures-tagged = Buiten gebruik
figures-days-out = Dagen eruit
figures-still-out = nog eruit
figures-rounds = Rondes
figures-round = Ronde
figures-done = Gedaan
figures-done-late = Daarvan te laat
figures-overdue = over tijd

## Rounds kept: due, overdue, and who did what when

kept-how = Druk dit af voor een inspecteur. Een ronde wordt afgevinkt waar hij gedaan wordt: scan daar de code.
kept-print = Druk deze af
kept-when = Wanneer
kept-who = Door
kept-nothing = Niemand heeft opgeschreven dat het gedaan is.
kept-every = { $room }. Elke { $every }.
kept-source = Gevraagd door: { $source }
kept-no-source = Er is geen bron genoemd.
kept-late = Te laat: het moest op { $date }.
kept-due = Moet voor { $date }.
kept-scan-title = Een ronde
kept-scan-act = Ik heb het gedaan, hier
kept-scan-how = Eén tik schrijft het op jouw naam.
kept-day = { $count ->
    [one] dag
   *[other] { NUMBER($count) } dagen
}
kept-week = { $count ->
    [one] week
   *[other] { NUMBER($count) } weken
}
kept-month = { $count ->
    [one] maand
   *[other] { NUMBER($count) } maanden
}
kept-year = { $count ->
    [one] jaar
   *[other] { NUMBER($count) } jaar
}

## Print: codes to hang up

posted-how = Eén kaartje per plek, om langs de streepjes uit te knippen. Te lezen tot een halve meter; houd ze schoon en uit het slijpstof.
posted-leads = De codes leiden naar { $origin }. Telefoons moeten de server daar bereiken.
posted-which = Welke kaartjes?
posted-doors = Deuren
posted-machines = Machines
posted-stops = Haltes
posted-rounds = Rondes
posted-print = { $count ->
    [one] Druk één kaartje af
   *[other] Druk { NUMBER($count) } kaartjes af
}
posted-none = Het reglement heeft er geen.
posted-door-act = Scan voor je hier werkt.
posted-machine-act = Scan om te starten, of buiten gebruik te stellen.
posted-stop-act = Scan op je ronde door de werkplaats.
posted-round-act = Gedaan? Scan hier.
posted-code = Code van { $name }
posted-emergency = Bij gevaar: stop, ga weg, bel { $number }.
posted-no-number = Bij gevaar: stop, ga weg, bel het alarmnummer.
posted-caution = Helpt bij het oordelen; maakt geen machine veilig. De regels van de werkplaats en vakmanschap gaan voor.
posted-stop-name = Halte { NUMBER($number) } van { NUMBER($of) }, { $room }
today-incident = Verteld: { $note }
today-incident-next = Lees het, praat met wie het vertelde en zeg wat er veranderd is.
today-evening = { $name }, { $room }, weg { $when }
today-watch-short = De brandwacht was { NUMBER($minutes) } min te kort.
today-gap = { $machine } liep zonder maatje, { $from } tot { $to }.
today-missing = Niet afgevinkt: { $chores }
today-they-say = Die zegt: { $why }
today-fire-next = Vraag hoe het ging, en of iemand later nog heeft gekeken.
today-evening-next = Maak een praatje, eerst met belangstelling voor het werk.
today-out = { $machine } ligt eruit: { $problem }
today-out-next = Niemand heeft nog gezegd wat eraan gedaan wordt.
today-out-check = Gemaakt door { $name }. Een tweede moet hem controleren.
today-out-waits = Er wordt op een onderdeel gewacht.
today-rounds = { $count ->
    [one] Er is een ronde aan de beurt
   *[other] Er zijn { $count } rondes aan de beurt
}
today-rounds-late = { $count ->
    [one] Een ronde is te laat
   *[other] { $count } rondes zijn te laat
}
today-round-since = Aan de beurt op { $when }.
today-round-next = Doe het, of vraag iemand die er is.
today-mess = Rommel: { $place }
today-mess-next = Kijk wie het kan zijn geweest, en vraag het.
today-mess-asked = Er is gevraagd. Noteer hoe het afliep.
today-seen-to = Afgehandeld
today-to-thread = Naar deze machine
today-to-find = Wie het kan zijn geweest
today-to-incident = Naar de voorvallen
today-to-rounds = Naar de rondes
today-is-in = { $name }, weg om { $out-by }

repairs-none = Er ligt niets uit, voor zover deze telefoon weet.
repairs-tagged = Buiten gebruik door { $name }: { $problem }
repairs-picture-of = Foto van { $machine }, zoals die buiten gebruik werd gesteld
repairs-picture-missing = De foto is hier nog niet: die komt zodra de telefoon die hem maakte en deze de hub hebben bereikt.
repairs-by = { $step }, { $name }
repairs-mended-by = Gemaakt door { $name }. Hij blijft eruit tot iemand anders hem heeft gecontroleerd.
repairs-nothing-yet = Niemand heeft nog gezegd wat eraan gedaan wordt.
repairs-say = Meer zeggen
repairs-words = In een paar woorden
repairs-words-hint = Wat er te zien was, wat er gedaan is, welk onderdeel.
repairs-until = Als er op een onderdeel wordt gewacht: hoe lang?
repairs-week = Een week
repairs-two-weeks = Twee weken
repairs-month = Vier weken
repairs-remark = Alleen een opmerking
repairs-waits = Er wordt op een onderdeel gewacht
repairs-mended = Hij is gemaakt
repairs-check = Controleren en teruggeven
repairs-check-how = Bij de machine, door iemand anders dan wie hem maakte:
repairs-check-tools = Gereedschap, lappen en losse delen zijn weg.
repairs-check-guards = Schermen en kappen zitten er weer op, en vast.
repairs-check-clear = Iedereen staat vrij, en weet dat hij teruggaat.
repairs-check-tag = Het label haal je er zelf af.
repairs-check-source = Naar 29 CFR 1910.147(e) en 1910.145(f). De regels van de werkplaats en plaatselijke voorschriften gaan voor; dit vervangt geen slot.
repairs-check-act = Alles in orde. Hij mag weer aan
repairs-days = Eruit in de laatste { NUMBER($days) } dagen
repairs-days-row = { NUMBER($days) } dagen { NUMBER($hours) } uur in totaal, { $times ->
    [one] één keer
   *[other] { NUMBER($times) } keer
}

finds-none = In de laatste { NUMBER($days) } dagen is geen rommel gevonden.
finds-by = Gevonden door { $name }, { $when }
finds-clean-at = Voor het laatst schoon { $when }
finds-clean-never = Daarvoor is niet bekend dat het schoon was.
finds-nobody = Er staat geen gebruik in het logboek.
finds-rule = Wanneer het gebruikt is sinds het schoon was
finds-footage = { NUMBER($minutes) } min beeld in totaal
finds-window = { $from } tot { $to }
finds-ticked = Afgevinkt: { $chores }
finds-picture-of = Foto van wat er is gedaan: { $chore }
finds-unticked = Niet afgevinkt: { $chores }
finds-clock = De klok van die telefoon versprong { NUMBER($seconds) } s; houd daar rekening mee.
finds-ask = Een bericht om { $name } mee te vragen
finds-message = Hallo { $name }, { $place } was op { $when } niet schoon. Jij gebruikte het daarvoor ({ $from }). Weet je nog hoe je het achterliet? Kwam er iets tussen, zeg het me; ik maak het graag makkelijker.
finds-message-hint = Raak het aan, dan is alles gemarkeerd om te kopiëren.
finds-asked = Er is gevraagd
finds-outcome = Noteren hoe het afliep
finds-outcome-hint = Wat het was en wat helpt. Namen zijn niet nodig.
finds-seen-to = Afgehandeld
finds-patterns = Wat terugkomt, in { NUMBER($days) } dagen
finds-machines = Rommel, per keer dat een machine gebruikt is
finds-chores = Klussen niet afgevinkt, per keer dat ze nodig waren
finds-people = Avonden met iets niet afgevinkt
finds-people-how = Op naam. Een paar avonden zeggen weinig over wie dan ook: kijk hoe breed het interval is.
finds-share = { NUMBER($times) } van { NUMBER($of) }; { NUMBER($low) } tot { NUMBER($high) } van de 100
finds-interval = De tweede cijfers zijn het interval dat het echte aandeel 95 van de 100 keer bevat (Clopper en Pearson).

incidents-none = Er is niets verteld dat nog niemand heeft afgehandeld.
incidents-first = Is iemand gewond: help en bel eerst, schrijf later. Eerste hulp is voor wie het kan.
incidents-guard = Schrijf wat er te zien was en gedaan is. Geen diagnose, en geen gissing wiens schuld het was. De plaatselijke wet zegt wat aan wie gemeld moet worden.
incidents-told = Verteld door { $name }, { $when }
incidents-near-miss = Bijna een ongeluk
incidents-incident = Voorval
incidents-aid-given = Er is eerste hulp gegeven
incidents-aid-none = Geen eerste hulp
incidents-aid = Is er eerste hulp gegeven?
incidents-yes = Ja
incidents-no = Nee
incidents-kind = Wat was het?
incidents-place = Waar?
incidents-place-none = Niet bij een machine of in een ruimte
incidents-follow = Opvolgen
incidents-follow-hint = Wat is bekeken, wat is veranderd.
incidents-remark = Alleen een opmerking
incidents-changed = Dit is veranderd
incidents-seen-to = Afgehandeld

# What Sweepbell says, in English: short, kind, concrete; what to do next, never who to blame.
#
# A message is `module-name`; its module is where Rust finds it. Every language has the same messages with the same
# arguments, or the build stops. `{ NUMBER($n) }` is a whole number; a choice is made by one.

## The page before the app has started (index.html shows the English; start.js the others)

page-opening = Opening. No network is needed after the first visit.
page-failed = Sweepbell could not start on this browser. Reload; if that does not help, the shop's paper rules hold meanwhile.

## Lengths of time and numbers

time-minutes-short = { NUMBER($minutes) } min
time-hours-short = { NUMBER($hours) } h { $minutes }
time-days = { $days ->
    [one] { $days } day
   *[other] { $days } days
}
time-just-now = just now
time-ago = { $length } ago
time-decimal = { $whole }.{ $part }

## The places, and what surrounds every screen

frame-app = Sweepbell
frame-places = Places
frame-door = Door
frame-bench = Bench
frame-sweep = Sweep
frame-room = Room
frame-book = Book
frame-back = Back
frame-read = Got it
frame-no-session = No session yet
frame-no-session-bench = Once you are in, your machines stand here, with the time left until the sweep and until the last spark.
frame-no-session-sweep = Once you are in, the close-down stands here, chore by chore, in the best order.
frame-to-door = To the door
frame-demo = { $shop } is a demo shop: its people and its log are invented.
frame-book-with = Book +{ NUMBER($waiting) }

## What comes after the first picture, until it is here

later-moment = One moment
later-failed = This part of the app has not come through.
later-next = What you have confirmed is kept, and your session runs on. Try again where there is a network.

## Before the app can be used

gate-starting = Reading this phone's log
gate-resuming = Your session goes on
gate-out-by = Out by
gate-sweep-from = Sweep from
gate-no-storage = This browser keeps nothing here, so no session can be logged.
gate-no-storage-next = Open Sweepbell in an ordinary window, not a private one. The shop's paper rules hold meanwhile.
gate-no-key = This phone's key cannot be read, so nothing can be signed.
gate-no-key-next = Close other tabs and reload. If that does not help, ask the steward to let this phone join again.
gate-join = Join the shop
gate-join-why = Once, with the network on. After that, everything works without it.
gate-join-code = Join code
gate-join-hint = A steward makes it for you.
gate-join-act = Join
gate-join-scan = Scan it instead
gate-checking = Asking the shop
gate-who = { $shop }. Who are you?
gate-who-why = Pick your own name: this phone signs for you from now on.
gate-is-it = { $shop }. Are you { $name }?
gate-for-why = This code is for { $name } alone and works once. This phone signs for { $name } from now on.
gate-for-replaces = The phone that it replaces is taken off as soon as this one has joined.
gate-join-as = Join as { $name }
gate-stop-joining = Back
gate-fetching = Fetching the shop's rules
gate-offline-next = Joining needs the network this once. Check it, then try again.
gate-again = Try again

## Arriving

door-title = At the door
door-teach = Scan the code by the door you are at. You will be asked a few things, one by one.
door-scan = Scan the door code
door-pick = Or pick the room
door-empty = nobody known to be in
door-inside = { $people ->
    [one] 1 person in
   *[other] { $people } people in
}
door-step = { $room }. { NUMBER($step) } of { NUMBER($of) }
door-yes = Yes, it is so
door-not-today = Not now
door-out-by = When must you be out?
door-room = { $room }. Nearly in.
door-in-hours = in { $length }
door-earlier = 15 min earlier
door-later = 15 min later
door-begin = Start, out by { $clock }
door-in-room = You are in: { $room }
door-in-teach = Going out for good? Sweep first, then leave there. The door code is for arriving.
door-to-bench = To the bench
door-be-buddy = Scan to be a buddy
door-barred = Not yet
door-cautions = What this app cannot do

## Working

bench-title = Bench, { $room }
bench-sweep-in = Sweep from { $clock }, in
bench-sweep-since = Sweep was due at { $clock }, late by
bench-sweep-soon = { $minutes ->
    [one] 1 minute until the sweep, at { $clock }.
   *[other] { $minutes } minutes until the sweep, at { $clock }.
}
bench-out-by-soon = { $minutes ->
    [one] 1 minute until you must be out, at { $clock }.
   *[other] { $minutes } minutes until you must be out, at { $clock }.
}
bench-min = min
bench-out-by = Out by
bench-move-it = move
bench-move-out-by = Move out-by
bench-out-by-cannot-be-kept = Hot work ended late. After the fire watch and the sweep it is { $free-at }: past your out-by.
bench-stay-and-move = Stay for the watch, and move your out-by.
bench-free-at = Free, if you sweep now
bench-not-proven = So many chores that this plan is a good one, not proven the shortest.
bench-start-sweep = Start sweeping
bench-machines = Machines
bench-news-old = This phone last heard from the shop { $ago }. A tag put on since is not known here: look at the machine itself.
bench-no-machines = No machines stand in this room. Hand work needs no start; the sweep waits for you all the same.
bench-start = Start
bench-stop = Stop
bench-why-not = Why not?
bench-act-on = { $act }: { $machine }
bench-running = runs, { $length }
bench-needs-buddy = asks for a buddy
bench-hot-work = hot work
bench-pedal = pedal: any foot starts it
bench-covered = buddy for { $length } more
bench-uncovered = No buddy now. Stop it, or ask again.
bench-buddy = { $name } is your buddy
bench-buddy-left = { $length } left
bench-no-buddy = Nobody is your buddy yet. Some machines here ask for one.
bench-ask-buddy = Ask for a buddy
bench-ask-again = Ask again
bench-wear = Wear
bench-never = Take off
bench-check = Check
bench-material = What are you working?
bench-refuses = Never in this machine: { $materials }.
bench-material-other = None of those
bench-all-so = All so. Start
bench-nothing-to-check = The rulebook asks nothing more of this machine. Look it over all the same.
bench-crew-how-many = How many of you sweep?
bench-crew-why = Machines that still run count as stopped. Switch them off first.
bench-crew-one = Just me
bench-crew = { NUMBER($count) } of us
bench-move-to = Out by { $clock }
bench-lapses = What you confirmed at the door holds until { $clock }.

## Closing down

sweep-not-begun = Not sweeping yet
sweep-preview = This is what waits at the end, in the best order.
sweep-title = Sweep, { $room }
sweep-with = Also here: { $names }
sweep-last-out = Nobody else is known to be here, so the room's last chores are yours.
sweep-crew-again = Others sweep with me
sweep-done-by = Done by
sweep-all-done = Everything is done. Thank you.
sweep-no-chores = The rulebook names no chores here. Leave it as you would like to find it.
sweep-from = from { $clock }
sweep-done-at = done { $clock }
sweep-after = after: { $first }
sweep-hands = { $count ->
    [one] 1 person
   *[other] { $count } people
}
sweep-unattended = by itself
sweep-photo = With a photo
sweep-photo-of = Done, with a photo: { $chore }
sweep-sparking = Hot work is still on. The watch begins when it stops.
sweep-watch-until = Fire watch until { $clock }
sweep-watch-why = Why until then?
sweep-watch-how = Look and smell for embers: under, behind, and in the sweepings.
sweep-watch-over = The fire watch was over at { $clock }.
sweep-walked = I walked the place
sweep-walked-ago = Last walked: { $ago }.
sweep-running = Still on: { $names }
sweep-running-next = Switch off what runs; starting the sweep counts it as stopped.
sweep-leave-clean = I have left it clean
sweep-leave = Leave
sweep-leave-title = Before you go
sweep-missing-why = You can leave all the same. The Book will say what is left, so that the next one knows.
sweep-watch-short = { $minutes ->
    [one] The fire watch has 1 minute to go.
   *[other] The fire watch has { $minutes } minutes to go.
}
sweep-watch-short-next = Stay, or ask someone to keep it for you. Embers do not know the time.
sweep-leave-now = Leave the room
sweep-stay = Stay a little
sweep-missing = { $count ->
    [one] 1 chore is left
   *[other] { $count } chores are left
}

## Who is here

room-title = Room
room-board = { $room } as a board for the wall
room-nobody = Nobody is known to be in.
room-me = { $name } (you)
room-since = in since { $since }, out by { $out-by }
room-sweeping = sweeping
room-heard = last heard of { $ago }
room-muster = Muster
room-muster-how = Call each name outside. This is what this phone knows; someone without a phone is not on it.
room-clear = Clear the room
room-clear-sure = Ring for everybody: clear the room
room-clear-called = Everybody was called out at { $clock }. Call it out loud as well: not every phone is heard.
room-count = { $people ->
    [one] 1 person not known to have left
   *[other] { $people } people not known to have left
}
room-call = Call { $number }
room-call-emergency = In danger: stop, leave, call the emergency number.
room-tagged = Tagged out
room-none-tagged = Nothing is tagged out.
room-tagged-since = tagged { $ago }
room-tag-thread = Its repair thread
room-tag-out = Tag a machine out
room-tag-which = Which machine?
room-tag-what = What is wrong with it?
room-tag-photo = Tag it out with a picture
room-tag-hint = One sentence. The next person reads it before they reach for the switch.
room-tag = Tag out: { $machine }
room-rounds = Rounds
room-round-late = Late: it was due { $ago }.
room-round-due = Due in { $length }.
room-round-never = Nobody has written down that it was done.
room-round-done = Last done by { $name },{ " " }
room-round-act = Done
room-found = How did you find it?
room-found-clean = Found clean
room-found-mess = Found a mess
room-found-where = Where?
room-whole = { $room }: the room itself
room-mess-what = What did you find?
room-mess-hint = What and where. No names: the log knows the times, and the steward asks kindly.
room-mess-talk = If you know who was here, talk first: "What were you making? Shall we get the chips together?"
room-mess-tell = Note the mess
room-clean = clean
room-mess = a mess
room-incident = Tell the steward something
room-incident-what = What happened?
room-incident-tell = Put it in the log

## The log and this phone

book-title = Book
book-pages = Pages of Book
book-back-to-book = Back to Book
book-stewards-page = This page is for whoever looks after the shop.
book-page-today = Today
book-page-today-hint = Who is in, and what needs you
book-page-walk = The walk
book-page-walk-hint = Stop by stop through the rooms; what changed since yours
book-page-sign-offs = What I may run
book-page-sign-offs-hint = Your sign-offs, until when, and what comes next
book-page-people = People
book-page-people-hint = Who is who; inducting, signing off, phones
book-page-rules = Rules
book-page-rules-hint = The rulebook: written, tried, published
book-page-figures = Figures
book-page-figures-hint = What months were like; to print, and to take along
book-page-rounds = Rounds
book-page-rounds-hint = Due, overdue, and who did them when
book-page-print = Print
book-page-print-hint = Codes for doors, machines, stops and rounds
book-page-repairs = Repairs
book-page-repairs-hint = What is out, who mends it, who checks it
book-page-finds = Finds
book-page-finds-hint = Messes, who could have left them, what repeats
book-page-incidents = Incidents
book-page-incidents-hint = What happened, and what was changed
book-all-held = Everything is with the hub.
book-waiting-next = Safe here. They go when there is a network.
book-sync = Send now
book-reached = Hub reached { $ago }.
book-not-asked = The hub has not been asked yet.
book-not-all = This phone has not heard the whole log yet.
book-not-all-next = What stands here may change when it has.
book-rejected-next = They are kept here with the reason. Show them to the steward.
book-aside-next = They lie aside untouched; the rest of the log goes on. Tell the steward.
book-evenings = Your evenings
book-no-evenings = Each session that you leave is drawn here: work, fire watch, sweep.
book-evening = { $chores ->
    [one] Left { $left }, out by { $out-by }; 1 chore ticked
   *[other] Left { $left }, out by { $out-by }; { $chores } chores ticked
}
book-lines = This phone's log
book-no-lines = Nothing yet. What you do in a session is written here, line by line, and signed by this phone.
book-more = { $count ->
    [one] Show 1 earlier line
   *[other] Show { $count } earlier lines
}
book-line-waits = waits
book-line-held = with the hub
book-line-rejected = not taken: { $why }
book-phone = This phone
book-signs-for = Signs for { $name } at { $shop }.
book-key-sealed = Its key is sealed in the browser.
book-key-seed = Its key lies in the browser's storage; this browser cannot seal it.
book-pin = Six figures of your own
book-pin-hint = For when your phone is empty: typed on somebody's phone they let you be their buddy. Not a date, and none that you use elsewhere.
book-pin-act = Keep these figures
book-card-days = { $days ->
    [one] Your card is good for one more day.
   *[other] Your card is good for { $days } more days.
 }
book-card-out = Your card has run out.
book-steward = You look after this shop.
book-signer = You sign others off.
book-list = Which phones were taken off: as the hub had it { $ago }.
book-show-card = Show my card
book-card-code = Your card, as a code
book-card-how = For somebody whose phone does not know yours yet: they scan this, then your answer.
book-off-none = The hub holds all that it said. Ask a steward for a code for another phone.
book-off-next = { $count ->
    [one] One line that it has not sent is safe here. Hand it in, and a steward decides whether it counts; or keep it as a file.
   *[other] { $count } lines that it has not sent are safe here. Hand them in, and a steward decides whether they count; or keep them as a file.
 }
book-hand-in = Hand it in
book-keep-file = Keep it as a file
book-handed = The hub has it. A steward decides whether it counts.
book-phones = Phones
book-phones-how = A new phone, or one more: ask a steward for a code and scan it there. Lost one? Take it off at once, here or through a steward: it then reads nothing, and nothing that it says counts. A code made in its place takes it off by itself.
book-look-up = Look up my phones
book-people-how = A code is for one member, works once, and runs out after a day.
book-people-look-up = Look up codes and phones
book-invite = Code for { $name }
book-replace = Code in its place
book-made = For { $name }: to be scanned, or typed
book-open-code = Code for { $name }, not used yet
book-take-back = Take it back
book-a-phone = A phone of { $name }, since { $ago }
book-this-one = this phone
book-off = taken off
book-take-off = Take it off
book-take-off-sure = For good: take it off
book-late = { $lines ->
    [one] One line, handed in late, waits.
   *[other] { $lines } lines, handed in late, wait.
}
book-admit = They are their own: take them in
book-admitted = { $lines ->
    [one] One line was taken into the log.
   *[other] { $lines } lines were taken into the log.
}
book-hang = Use it as a board
book-hang-in = Hang it up in { $room }
book-hang-nowhere = It hangs nowhere
book-mine = What the hub holds about you
book-mine-how = To see, to take along, to have erased. What you declined at the door, and what noise and vibration a day brought, never leave this phone.
book-mine-look-up = Look it up
book-mine-lines = { $count ->
    [one] One line that your phones signed
   *[other] { $count } lines that your phones signed
}
book-mine-naming = { $count ->
    [one] One line of somebody else that names you as a buddy
   *[other] { $count } lines of others that name you as a buddy
}
book-mine-more = { $count ->
    [one] Your row of the members file, one phone, codes that were made for you
   *[other] Your row of the members file, { $count } phones, codes that were made for you
}
book-mine-figures = What your figures are checked against
book-mine-pictures = { $count ->
    [one] One picture that a phone of yours handed over
   *[other] { $count } pictures that your phones handed over
}
book-mine-stays = { $count ->
    [one] One line is in force and stays for now: a tag on a machine, the last word on a round, or an evening under way.
   *[other] { $count } lines are in force and stay for now: a tag on a machine, the last word on a round, or an evening under way.
}
book-mine-days = { $days ->
    [one] The log is kept for one day and goes then by itself, on phones too.
   *[other] The log is kept for { $days } days and goes then by itself, on phones too.
}
book-mine-file = Take it along as a file
book-erase = Have it erased
book-erase-sure = For good: erase it
book-erased = { $count ->
    [one] One line is erased, here as well. Its place in the log stays, empty.
   *[other] { $count } lines are erased, here as well. Their places in the log stay, empty.
}
book-clock-offset = { $minutes ->
    [one] Its clock is 1 minute off the hub's.
   *[other] Its clock is { $minutes } minutes off the hub's.
}
book-theme = Look
book-theme-phone = As the phone
book-theme-dark = Dark steel
book-theme-light = Paper
book-language = Language
book-notices = Let the bells show on the locked phone
book-notices-on = Bells may show on the locked phone.
book-notices-off = Bells may not show on the locked phone; its settings for this page decide that.
book-notices-why = A locked phone may still stay silent. Set its own timer as well.
book-update-waits = A new version stands ready.
book-update-next = It waits until no session is open.
book-update = Change to it now
book-waiting = { $count ->
    [one] 1 line waits on this phone.
   *[other] { $count } lines wait on this phone.
}
book-rejected = { $count ->
    [one] The hub would not take 1 line.
   *[other] The hub would not take { $count } lines.
}
book-aside = { $count ->
    [one] 1 line could not be read again.
   *[other] { $count } lines could not be read again.
}

## Asking and answering

buddy-ask = Ask for a buddy
buddy-ask-how = Someone in this room scans this with their own phone and confirms. Then scan what their phone shows.
buddy-ask-code = Your code for a buddy
buddy-good-for = { $minutes ->
    [one] Good for 1 minute more.
   *[other] Good for { $minutes } minutes more.
}
buddy-too-old = This code has run out. Go back and ask again.
buddy-could-be = Known to be in this room
buddy-ask-phone = Ask their phone too
buddy-asked-too = { $name }'s phone was asked over the network as well.
buddy-scan-answer = Scan their answer
buddy-show-code = Show my code again
buddy-asks = { $name } asks you to be their buddy
buddy-manners = Come into view before you speak to someone at a machine.
buddy-here = I am in the room
buddy-leaving = I am leaving
buddy-show-back = Show them this
buddy-show-back-how = { $name } scans it with their phone. Then it counts.
buddy-answer-code = Your answer
buddy-carrying = Sending it over the network as well.
buddy-carried = It went over the network too. They may have it already.
buddy-not-carried = The network does not reach. The code does it.
buddy-done = Done
buddy-covering = You are { $name }'s buddy until { $clock }
buddy-covering-how = Leaving the room? Scan their code again and say so, and tell them.
buddy-given-word = on their word
buddy-given-room = in the room
buddy-given-pin = by their figures
buddy-board = Code on the board
buddy-board-hint = Six figures, others every half minute. With them it is marked that you are in the room. You can leave them out.
buddy-no-phone = A buddy without a phone
buddy-who = Who is it?
buddy-figures = Six figures of { $name }
buddy-figures-hint = { $name } types them here. Nobody else looks.
buddy-in-room = In: { $room }.
buddy-at-machine = At the { $machine }, in: { $room }.
buddy-means = { $minutes ->
    [one] You are in the same room, you stay in it, and you look up now and then. Your word holds for 1 minute; they will ask again.
   *[other] You are in the same room, you stay in it, and you look up now and then. Your word holds for { $minutes } minutes; they will ask again.
}

## Bells

bell-first = Finish the pass you are on.
bell-sweep = Stop. Start sweeping.
bell-last = You are past your out-by.
bell-last-spark = Last spark. No more hot work.
bell-lapsing = Your buddy's word ends in 2 minutes.
bell-lapsed = No buddy. Stop the machine.
bell-name-first = First bell, { $clock }
bell-name-sweep = Sweep bell, { $clock }
bell-name-last = Last bell, { $clock }
bell-name-last-spark = Last spark, { $clock }
bell-name-buddy = { $machine }, { $clock }
bell-clear = Clear the room.
bell-clear-next = Switch off and go out by the nearest way. Come into view before you speak to someone at a machine. Then muster.
bell-name-clear = Called at { $clock }
bell-muster = To the muster list
bell-late = { $minutes ->
    [one] This bell is 1 minute late: the phone was asleep or closed.
   *[other] This bell is { $minutes } minutes late: the phone was asleep or closed.
}
bell-first-times = Sweep from { $sweep }. Out by { $out-by }.
bell-first-next = Then put down what needs no more work today.
bell-sweep-next = Switch off, let it run down, then the chores stand ready in their order.
bell-last-next = Finish or leave what is left, and say so by leaving. Or move your out-by if you may stay.
bell-last-spark-next = The fire watch needs the time that is left. Cold work is fine.
bell-lapsing-next = Show them your code again, or come to a stop.
bell-lapsed-next = When it stands still, ask someone in the room to scan your code.
bell-heard = Heard
bell-sweeping-now = Sweeping now
bell-go-on = Go on sweeping
bell-have-left = I have left
bell-more-how = How much longer?
bell-more-not = What you confirmed at the door ends then: you cannot stay longer in this session.
bell-more-then = Then sweep from { $sweep }, out by { $out-by }.
bell-more-spark = Last spark moves too, to { $clock }.
bell-more-costs = It costs you { NUMBER($minutes) } min of your evening, and whoever waits for the room as much.
bell-more-until = Until { $clock } at most: then what you confirmed at the door ends.
bell-more-act = Out by { $clock }
bell-left-why = Then why is the sweep not done?
bell-left-how = So that whoever comes next knows what to expect. Nobody is blamed.
bell-left-not-ticked = It is done, I did not tick it
bell-left-others-sweep = Somebody else sweeps
bell-left-had-to-go = I had to go
bell-left-unsaid = I would rather not say
bell-more-time = I need more time
bell-ask-again = Ask again
bell-notice = { $machine }. { $next }

## What the hub calls out to a phone in a pocket (said by the service worker) and whether it can (Bench, Book)

call-watch-over = The fire watch is over.
call-watch-over-next = Look once more where the hot work was; then it is done.
call-not-sweeping = Somebody near you has not begun to sweep.
call-not-sweeping-next = Go and see, and tell them that it is time. Come into view before you speak.
call-not-out = Somebody did not answer their last bell.
call-not-out-next = Room says who is still there. Ask them whether all is well.
call-long-past = Somebody is half an hour past their out-by.
call-long-past-next = Room says who is still there. If nobody answers you, have somebody go and see.
call-watch-cut-short = A fire watch was cut short.
call-watch-cut-short-next = Have somebody look for embers where the hot work was, until its time is over.
call-try = A try: the hub reaches this phone.
call-try-next = Nothing is due. A bell comes like this.
call-unknown = Something is due.
call-unknown-next = Open Sweepbell: it says what.
call-late = { $minutes ->
    [one] That was due 1 minute ago.
   *[other] That was due { $minutes } minutes ago.
}
pocket-armed = The hub rings this phone, locked too, where both have a network.
pocket-unasked = Locked in a pocket, this phone is not rung by the hub yet.
pocket-arm = Let the hub ring it
pocket-refused = This phone lets no bells of this page through when it is locked. Its settings for this page decide that.
pocket-home-screen = This browser rings a locked phone only for an app on the home screen. Put Sweepbell there, open it there, and come back to this line.
pocket-unsupported = This browser cannot be rung while it is closed.
pocket-unreached = Whether the hub rings this phone is known once it is reached again.
pocket-failed = The browser gave no address to ring. Try again where there is a network.
pocket-own-timer = Set the phone's own timer as well.
pocket-more = Bells in a pocket
pocket-lit = The screen stays lit.
pocket-dark = The screen may go dark.
pocket-heard = Sound is on.
pocket-mute = Sound comes with the first touch.
pocket-timer-rings = The phone's own timer rings at { $clock }, as you said.
pocket-timer-late = Your timer rings at { $clock }, after the sweep bell: set it anew.
pocket-in-view = In view
pocket-in-view-how = While this page is in view it rings, shakes the phone where that can be, and flashes.
pocket-try-it = Ring it now
pocket-only-a-try = Only a try.
pocket-with-network = Locked, with a network
pocket-without-network = Locked, without a network
pocket-timer-for = Set a timer in the phone's own clock for
pocket-timer-is-set = I have set it
pocket-calendar = Take the bells along for the calendar
pocket-calendar-how = A backup: some calendars take the file in and leave its alarms out. After the times have moved, take it anew; it is the same entry.
pocket-end = No longer ring it
pocket-manner = How bells come
pocket-manner-mute = Flash and shake, no sound
pocket-manner-mute-how = The whole screen flashes once a second, whatever the phone says of motion, and the phone shakes for longer.
pocket-manner-say = Said aloud as well
pocket-manner-night = Softer from 22 to 7
pocket-manner-board = The room's board names me
pocket-manner-board-how = For this session: its bell then says whom it is for.
pocket-on = on
pocket-off = off
pocket-try-hub = Ring it as a try
pocket-try-comes = In { NUMBER($seconds) } seconds the hub rings this phone: lock it now. If nothing comes, count on the timer instead.
pocket-browsers = What browsers can do
pocket-on-android = Android, in the browser or on the home screen: sound, shake and a lit screen while the page is in view; the hub rings it when locked, unless the phone holds that back to save power.
pocket-on-iphone-home = iPhone and iPad, on the home screen: sound and a lit screen while in view, no shake; the hub rings it when locked.
pocket-on-iphone-tab = iPhone and iPad, in a tab of the browser: sound while in view, and nothing when locked. Put Sweepbell on the home screen.
pocket-on-computer = Computer: sound while in view; the hub rings it for as long as the browser runs. Nothing shakes.

## The steel rule

rule-title = Your session as a steel rule
rule-past = gone
rule-work = work
rule-sweep = sweep
rule-watch = fire watch
rule-last-spark = last spark
rule-out-by = out by
rule-over = over
rule-says-out-by = Out by { $at }.
rule-says = First bell { $first-bell }, sweep from { $sweep }, out by { $out-by }.
rule-says-last-spark = Last spark { $at }.

## The camera

scan-title = Scan
scan-how = Hold the code in the picture. A hand's width away is about right.
scan-typed = Or type the name on the door
scan-use-it = Use it
scan-missing = There is no camera here.
scan-refused = The camera may not be used by this page.
scan-busy = Another program has the camera.
scan-other = The camera does not start.
scan-missing-next = Type the name on the door, or scan with another phone.
scan-refused-next = Allow it in the browser's settings for this page, or type the name on the door.
scan-busy-next = Close the other program, go back, and scan again.

## Asking why

why-why = Why?
why-act = why?
why-all = Why these times?

## What the app is not

cautions-title = What this app cannot do
cautions-support = It supports your judgement. It is not a safety device.
cautions-no-interlock = It does not make a machine safe, does not interlock it, and does not measure noise.
cautions-defers = It defers to the shop's rules, to local codes, to the authority having jurisdiction and to licensed practice.
cautions-danger = In danger: stop, leave, call the emergency number.

## What is looked up: fire, metals, finishes, shades

look-look-up = Look it up
look-fire = Fire
look-leave-first = Leave. Warn the others. Call.
look-small-only = Only a small fire, and only with the way out behind you. If you doubt it, leave. The shop's rules and the fire service come first.
look-gather = Gather here
look-way-out = Way out
look-no-way-out = Not a way out
look-doors = { $room }: doors
look-burns = { $room }: what burns?
look-none-written = { $room }: the rulebook names no extinguisher.
look-nothing-for-it = Nothing here is for this. Leave.
look-metal = What metal is this?
look-metal-how = Try a magnet on a bare spot and scratch it. Weight and size narrow it down. Nothing here replaces a label.
look-magnet = A magnet
look-scratch = A fresh scratch is
look-grams = Weight in g
look-shape = Its size is that of
look-tool = Read with
look-may-be = It may be
look-dense = { $least } to { $most } g/cm³, with the doubt of scale and rule in it.
look-no-metal = Nothing here fits. Weigh and measure again; it may be hollow, plated, or an alloy that is not listed.
look-until-sure = Until you are sure, not in: { $machines }.
look-air = May I open this tin?
look-voc = VOC on the tin, in g/l
look-voc-hint = Ready to use, thinner and hardener in it. 1{ "\u00A0" }lb/gal is 120{ "\u00A0" }g/l. No number? Leave it empty.
look-place = Where
look-no-place = The rulebook names no place for paint or glue. Ask the steward.
look-in-the-room = { $room }, in the room
look-yes-room = Yes, fan on, and the lid on between strokes.
look-yes-hood = Yes:
look-not-you = Not yet:
look-too-much = No, too much.
look-unsaid = No, not without a number on the tin.
look-limit = Limit { NUMBER($g-per-l) } g/l: { $source }.
look-air-caution = This is about solvent vapour alone. Isocyanates and fire are on the tin's own label.
look-shades = Welding shades
look-least-shade = The least shade
look-shades-how = The least there may be, for helpers and watchers too. Start darker, go lighter until you see the work. 29 CFR 1910.133(a)(5).
look-table-ends = the table ends at { NUMBER($most) }{ "\u00A0" }A
look-left-caution = Ears and hands: what is left today before an action value for noise or vibration. An estimate from typical levels, without hearing protection, not a measurement. It stays on this phone.
look-burning-ordinary = Wood, paper, rags
look-burning-liquid = Paint, solvent, oil
look-burning-gas = Gas
look-burning-live = Something under power
look-burning-metal = Metal: chips, dust
look-burning-oil = Cooking oil
look-first-liquid = Never water.
look-first-gas = Shut the valve if you can reach it; a flame that cannot be shut off is left to burn.
look-first-live = Power off first, if you can reach it. Never water.
look-first-metal = Lay it on gently. Never water, foam or CO2.
look-agent-water = water
look-agent-foam = foam
look-agent-powder = powder
look-agent-co2 = CO2
look-agent-clean-gas = clean gas
look-agent-wet-chemical = wet chemical
look-agent-metal-powder = metal powder
look-agent-dry-sand = dry sand
look-extinguisher = { $place }: { $agent }, marked { $classes }.
look-extinguisher-live = { $place }: { $agent }, marked { $classes }, and for live electrics.
look-magnet-holds = holds
look-magnet-lets-go = lets go
look-colour-grey = grey
look-colour-yellow = yellow
look-colour-red = red
look-shape-block = a block
look-shape-round = a round bar
look-shape-water = its water
look-tool-rough = rule or jug
look-tool-fine = calliper or cylinder
look-size-length = Length in mm
look-size-width = Width in mm
look-size-height = Height in mm
look-size-across = Across in mm
look-size-displaced = Water displaced in ml
look-sure-alone = the only one here that fits
look-sure-fits = fits
look-sure-edge = fits only by the doubt of the reading
look-candidate = { $least } to { $most } g/cm³, { $sure }.
look-never-in = Never in: { $machines }.
look-caveat-brass-or-bronze = Brass and bronze overlap: weight and size cannot part them.
look-caveat-stainless = Some stainless steel does not hold a magnet either.
look-caveat-magnesium = It may be magnesium: no sparks, no grinding, and never water on it if it burns.
look-caveat-lead = It may be lead: no dust, no fume, and wash your hands.
look-process-stick = Stick
look-process-wire = Wire, solid or cored
look-process-tig = TIG
look-process-plasma-cutting = Plasma cutting
look-process-plasma-welding = Plasma welding
look-process-air-carbon-arc = Air carbon arc
look-process-carbon-arc = Carbon arc
look-process-gas-welding = Gas welding
look-process-oxygen-cutting = Oxygen cutting
look-process-brazing = Torch brazing
look-process-soldering = Torch soldering
look-shade = shade { NUMBER($shade) }
look-amperes-under = under { NUMBER($edge) }{ "\u00A0" }A: shade { NUMBER($shade) }
look-plate-under = under { $edge }{ "\u00A0" }mm plate: shade { NUMBER($shade) }
look-amperes-from = from { NUMBER($edge) }{ "\u00A0" }A: shade { NUMBER($shade) }
look-plate-from = from { $edge }{ "\u00A0" }mm plate: shade { NUMBER($shade) }
look-left-ears = ears: { $length } left
look-left-hands = hands: { $length } left
look-enough-ears = ears: enough for today
look-enough-hands = hands: enough for today
look-day-left-ears = Your ears have { $length } left here today, by an estimate that measures nothing.
look-day-enough-ears = Your ears have had enough for today, by an estimate that measures nothing.
look-day-left-hands = Your hands have { $length } left here today, by an estimate that measures nothing.
look-day-enough-hands = Your hands have had enough for today, by an estimate that measures nothing.

## A line of the log

facts-entered = Came in: { $about }
facts-attested = Confirmed: { $about }
facts-started-for = Started: { $about }, for { $material }
facts-started = Started: { $about }
facts-stopped = Stopped: { $about }
facts-buddy = { $about } is buddy
facts-buddy-left = { $about } is no longer buddy
facts-out-by-moved = Moved the out-by
facts-sweep-started = { $crew ->
    [1] Started the sweep, alone
   *[other] Started the sweep, { $crew } people
}
facts-done-photo = Done, with a photo: { $about }
facts-done = Done: { $about }
facts-round = Round: { $about }
facts-watch = Walked the hot-work place
facts-timer = Set the phone's own timer
facts-clear = Called everybody out: { $about }
facts-bell-heard = Heard the bell
facts-on-board = The room's board may name you
facts-not-on-board = The room's board names you no longer
facts-undone = Sweep not done: { $why }
facts-undone-not-ticked = it is done, and was not ticked
facts-undone-others-sweep = somebody else sweeps
facts-undone-had-to-go = had to go
facts-undone-unsaid = not said
facts-clean = Found clean: { $about }
facts-mess = Found a mess: { $about }
facts-mess-note = Found a mess: { $about }. { $note }
facts-tagged = Tagged out: { $about }. { $problem }
facts-tag-cleared = Tag taken off: { $about }
facts-incident = Told the steward: { $note }
facts-clock = The phone's clock jumped by { NUMBER($seconds) } s
facts-left = Left
facts-walked = Walked: { $about }
facts-walk-done = Walked all stops
facts-inducted = Inducted { $about }
facts-induction-back = Took back the induction of { $about }
facts-signed-off = Signed off: { $about }
facts-sign-off-back = Took back a sign-off: { $about }
facts-role = Gave a role: { $about }
facts-rules = Published rules no. { NUMBER($number) }
facts-rules-why = Published rules no. { NUMBER($number) }: { $note }
facts-newer = Something a newer app wrote: { $what }
facts-noted = { $about }: { $step }
facts-noted-words = { $about }: { $step }. { $note }

step-remarked = Remark
step-waits = A part is waited for
step-waits-until = A part is waited for, until { $date }
step-mended = Mended
step-checked = Checked by a second person
step-asked = Asked
step-changed = Something was changed
step-seen-to = Seen to

matter-found = What was found
matter-incident = What was told
matter-session = An evening

## What went wrong with the phone, its storage or the network: what happened, then what to do

faults-spare = Kept, in the browser's small store: the large one does not answer.
faults-spare-next = It counts. Reload when you have a hand free, so that it is moved over.
faults-machine-code = That code is on a machine: { $name }.
faults-machine-code-next = Start a session at the door, then start it on Bench.
faults-code-too-long = This shop's names are too long for a code.
faults-code-too-long-next = Use the network, and tell the steward.
faults-buddy-here = { $name } is your buddy now.
faults-buddy-gone = { $name } is no longer your buddy.
faults-buddy-gone-next = Stop what needs a buddy, or ask someone else.
faults-six-figures = That is not six figures.
faults-pin-guessable = Anybody would try those first.
faults-pin-guessable-next = Choose six that are not all alike and do not count up or down.
faults-pin-wrong = Those are not their figures.
faults-pin-wrong-next = Type them again. After five wrong tries this phone takes none for ten minutes.
faults-pin-rests = Too many wrong figures were typed on this phone.
faults-pin-rests-next = { $minutes ->
    [one] Wait { NUMBER($minutes) } minute, or ask someone with a phone.
   *[other] Wait { NUMBER($minutes) } minutes, or ask someone with a phone.
}
faults-pin-unknown = This phone cannot check their figures.
faults-pin-unknown-next = Let it reach the hub once, or ask someone with a phone.
faults-pin-kept = These are your figures from now on.
faults-no-photo = The part of the app that takes photos has not come through.
faults-no-photo-next = You can go on without a photo.
faults-clock-jumped = { $seconds ->
    [one] The phone's clock jumped by { $seconds } second.
   *[other] The phone's clock jumped by { $seconds } seconds.
}
faults-clock-jumped-next = Your session's times stay as they were. It is noted in the log.
faults-forked = The hub tells another story of this phone than the phone itself.
faults-forked-next = Nothing is lost here. Tell the steward before you go on.
faults-other-tab = Another tab was quicker, so this was not done.
faults-other-tab-next = Look again, then press again.
faults-full = The phone's storage is full, so this was not saved.
faults-full-next = What was saved is safe and your session goes on. Free some space, then press again.
faults-lost = The phone's storage does not answer, so this was not saved.
faults-lost-next = What was saved is safe. Press again; if that does not help, reload.
faults-no-hub = The shop's hub does not answer.
faults-offline = No network, or no hub.
faults-offline-next = Everything works without it. It is tried again by itself.
faults-not-joined = The hub does not know this phone.
faults-not-joined-next = Ask a steward for a code.
faults-pause = The hub asks for a pause.
faults-pause-next = It is tried again in { NUMBER($seconds) } s.
faults-revoked = This phone was taken off the shop's list.
faults-revoked-next = What it has not sent is safe on it; Book says what to do. To go on, ask a steward for a code for another phone.
faults-other-hub = This hub signs with a key that this phone does not know.
faults-other-hub-next = Nothing was changed here, and what you have goes on. Tell the steward.
faults-invite-used = This code was used already, and works once.
faults-invite-used-next = Ask a steward for a new one. If it was not you who used it, say so.
faults-invite-over = This code ran out or was taken back.
faults-invite-over-next = Ask a steward for a new one.
faults-card-seen = This phone knows { $name }'s phone now.
faults-card-seen-next = Scan their answer, or have it sent again.
faults-bad-card = That card does not count: it ran out, was taken off, or is another shop's.
faults-bad-card-next = Have them open Sweepbell where there is a network and show it again.
faults-word-taken = It counts on this phone from now on.
faults-word-taken-next = The hub hears of it by itself.
faults-word-back = This phone knows that it was taken back.
faults-word-back-next = Ask whoever took it back what comes next.
faults-others-word = That code is not for this phone, or is by somebody who may not say it.
faults-others-word-next = Have it shown to the phone of whoever it is about; or ask a steward.
faults-newer-hub = The hub is newer than this app.
faults-newer-hub-next = Reload while you are not in a session.
faults-wrong-code = There is no such code
faults-wrong-code-next = Look at it again, or ask a steward for a new one.
faults-unknown-member = Unknown member
faults-unknown-member-next = The shop's members file does not have that person. Ask the steward.
faults-joined-for-another = Joined for another member
faults-joined-for-another-next = This device speaks for another member already. Clear its data to join it anew.
faults-hub-failed = Fault of the hub
faults-hub-failed-next = The hub failed. What you sent is still on your device; it will be sent again.
faults-hub-answered = The hub answered { NUMBER($status) }.

## Which time is another now, and why

moved-last-spark = Last spark { $at }
moved-first-sweep-from = Sweep from { $at }
moved-sweep-from = sweep from { $at }
moved-first-out-by = Out by { $at }
moved-out-by = out by { $at }
moved-no-more = no more
moved-told = { $times }: { $cause }
moved-started = you started { $machine }.
moved-stopped = you stopped { $machine }.
moved-out-by-moved = you moved your out-by.
moved-sweep-started = { $crew ->
    [1] you sweep alone.
   *[other] { $crew } of you sweep.
}
moved-done = done: { $text }
moved-other-came = { $who } came in, and may be the last one out.
moved-other-left = { $who } left, and the room's last chores may be yours.
moved-learned = it was seen how long this takes: { $text }

## What stands beside a sign on the sheet of a machine

signs-wear-eyes = eye protection
signs-wear-ears = hearing protection
signs-wear-face = face shield, over the glasses
signs-wear-toes = toe caps
signs-wear-sleeves = long sleeves
signs-wear-gloves = gloves
signs-wear-mask = mask
signs-wear-weld-shade = hood, set to its shade
signs-wear-loose = hair and cords tied in
signs-never-gloves = gloves
signs-never-loose = anything loose: hair, cords, scarves
signs-never-rings = rings and bracelets
signs-never-sleeves = loose sleeves

## Metals, by the words that rulebooks have for them

metal-mild-steel = mild steel
metal-cast-iron = cast iron
metal-stainless-steel = stainless steel
metal-tool-steel = tool steel
metal-aluminium = aluminium
metal-copper = copper
metal-brass = brass
metal-bronze = bronze
metal-titanium = titanium
metal-magnesium = magnesium
metal-zinc = zinc
metal-lead = lead
metal-tin = tin
metal-nickel = nickel
metal-hardened-steel = hardened steel
metal-galvanised-steel = galvanised steel
metal-painted-steel = painted steel

## Refusals: why, in one sentence, and what to do next

refusal-not-a-member = This phone's person is not in the members list.
refusal-not-inducted = Your induction is not on record yet.
refusal-card-expired = Your card has run out: this phone has not met the hub for too long.
refusal-induction-expired = Your induction has lapsed.
refusal-no-such-room = This shop has no room called { $room }.
refusal-already-in = You are already in: { $room }.
refusal-not-attested = Still to confirm: { $text }
refusal-attestation-lapsed = What you confirmed at the door has lapsed; it was long ago.
refusal-out-by-out-of-range = That is not a time at which this session can end.
refusal-no-session = You have no session.
refusal-has-left = This session has ended.
refusal-sweeping = You are sweeping; machines stay off now.
refusal-no-such-machine = This shop has no machine called { $machine }.
refusal-machine-elsewhere = { $machine } stands in another room: { $room }.
refusal-tagged-out = { $machine } is tagged out: { $problem }.
refusal-not-signed-off = You are not signed off on { $machine } yet.
refusal-sign-off-expired = Your sign-off for { $training } has lapsed.
refusal-sign-off-stale = { $training } was last done more than { NUMBER($days) } days ago.
refusal-material-refused = { $machine } must not work { $material }.
refusal-no-buddy = { $machine } asks for a buddy, and nobody has confirmed.
refusal-past-last-spark = It is past last spark: a fire watch of { NUMBER($watch-minutes) } minutes would not be over in time.
refusal-already-running = { $machine } is already running.
refusal-not-running = { $machine } is not running.
refusal-own-buddy = Nobody can be their own buddy.
refusal-buddy-elsewhere = { $buddy } is signed in elsewhere: { $room }.
refusal-buddy-full-one = { $buddy } is somebody else's buddy now.
refusal-buddy-full = { $buddy } is already buddy to { NUMBER($covers) } people.
refusal-buddy-operates = { $buddy } is running a machine that asks for a buddy.
refusal-not-a-buddy = They are not your buddy now.
refusal-no-such-chore = That chore is not one of this session's.
refusal-chore-done = That chore is done already.
refusal-chore-waits = Something comes first: { $first }
refusal-no-such-round = This shop has no round called { $round }.
refusal-no-watch = No fire watch is running.
refusal-no-words = Nothing was written.
refusal-too-long = That is too long to keep.
refusal-not-tagged = { $machine } is not tagged out.
refusal-not-mended = Nobody has said that { $machine } is mended.
refusal-second-person = You mended { $machine }: somebody else checks it.
refusal-stewards-act = Only a steward can do this.
refusal-not-a-signer = You do not sign others off: { $training }.
refusal-own-sign-off = Nobody signs themself off.
refusal-last-steward = Nobody else looks after this shop.
refusal-no-such-member = The members list has nobody called { $person }.
refusal-no-such-training = No machine asks for { $training }.
refusal-no-such-stop = The walk has no such stop.
refusal-other-answer = Not quite. { $because }
refusal-no-crew = At least one person sweeps.
refusal-cannot-plan = The sweep cannot be planned: { $why }.
refusal-next-not-a-member = Ask a steward to add you, then try again.
refusal-next-not-inducted = Ask a steward for the walk of the room; it takes about half an hour.
refusal-next-card-expired = Open Sweepbell where there is a network, once. If that does not help, ask a steward.
refusal-next-induction-expired = Ask a steward for a refresher.
refusal-next-no-such-room = Scan the code at the door again.
refusal-next-already-in = Go to Bench, or leave that session first.
refusal-next-not-attested = Confirm it, or come back another day.
refusal-next-attestation-lapsed = Leave, rest, and start a new session at the door.
refusal-next-out-by-out-of-range = Pick a time between the two ends shown.
refusal-next-no-session = Scan the code at the door first.
refusal-next-has-left = Scan the code at the door to start again.
refusal-next-sweeping = Finish the chores; start a new session if you need the machine.
refusal-next-no-such-machine = Pick a machine from the list.
refusal-next-machine-elsewhere = Start a session in that room: { $room }.
refusal-next-tagged-out = Use another machine. It is back once it is mended and a second person has checked it.
refusal-next-not-signed-off = Ask for a sign-off: { $training }.
refusal-next-sign-off-expired = Ask for a refresher before you use it.
refusal-next-sign-off-stale = Ask somebody who signs others off to go through it with you once.
refusal-next-material-refused = Use a machine meant for that material.
refusal-next-no-buddy = Ask someone in the room to scan your code.
refusal-next-past-last-spark = Do cold work now, or move your out-by if you can stay longer.
refusal-next-already-running = Nothing needs doing.
refusal-next-own-buddy = Ask someone else in the room.
refusal-next-buddy-elsewhere = Ask someone who is in this room.
refusal-next-not-a-buddy = Show your code if you need a buddy.
refusal-next-no-such-chore = Pick a chore from the list.
refusal-next-chore-waits = Do that one first.
refusal-next-no-such-round = Pick a round from the list.
refusal-next-no-watch = Carry on.
refusal-next-no-words = Say in a few words what is wrong.
refusal-next-too-long = Say it in { NUMBER($most) } characters or fewer.
refusal-next-not-tagged = It can be used.
refusal-next-not-mended = Whoever mends it says so in its thread first.
refusal-next-second-person = Ask somebody who is signed off on it, or a steward.
refusal-next-stewards-act = Ask a steward.
refusal-next-not-a-signer = Ask somebody who does: Book says who that is.
refusal-next-own-sign-off = Ask somebody else who may.
refusal-next-last-steward = Give the role to somebody else first.
refusal-next-no-such-member = Pick somebody from the list.
refusal-next-no-such-training = Pick a training from the list.
refusal-next-no-such-stop = Pick a stop from the list.
refusal-next-other-answer = Look again, and pick another answer.
refusal-next-no-crew = Say how many of you sweep.
refusal-next-cannot-plan = Start sweeping early, and tell the steward what this says.
refusal-impossible-unknown-room = there is no room `{ $room }` in the rulebook
refusal-impossible-unknown-machine = there is no machine `{ $machine }` in the rulebook
refusal-impossible-no-crew = nobody is there to close down: the crew is 0
refusal-impossible-too-few-people = `{ $chore }` takes { NUMBER($hands) } people at once, and there are { NUMBER($crew) }
refusal-impossible-no-gear = `{ $chore }` needs `{ $gear }`, and the shop has none
refusal-impossible-cycle = `{ $chore }` waits, by way of other chores, for itself

## The rule behind a refusal, its numbers and its source

because-not-a-member = Sessions are for members.
because-not-inducted = First comes the walk of the room.
because-card-expired = A card is good for 60 days and is made anew whenever the phone meets the hub.
because-induction-expired = An induction holds until a date.
because-no-such-room = Only what is written there counts.
because-already-in = Nobody is in two places.
because-not-attested = First every statement, one by one, in order.
because-attestation-lapsed = It holds for one session.
because-out-by-out-of-range = Not too soon to sweep, not too late.
because-no-session = Only in a session.
because-sweeping = The sweep is planned for what ran before it.
because-machine-elsewhere = A session is for one room.
because-tagged-out = A tag stays until the hazard is gone.
because-second-person = Before a machine goes back, tools are gone, guards are on, everybody is clear: two people see it.
because-not-signed-off = A sign-off on its training, until a date.
because-sign-off-stale = Hands forget what they do not do.
because-material-refused = It harms the machine, or you.
because-no-buddy = Somebody in the room has to be there for you all the while.
because-past-last-spark = After a spark come the watch and every chore.
because-already-running = It is so already.
because-own-buddy = A buddy helps when you cannot.
because-buddy-elsewhere = A buddy can see and hear you.
because-buddy-full = A buddy has eyes for only so many.
because-buddy-operates = Who needs a buddy has no eyes for you.
because-not-a-buddy = Only a word that was given can be taken back.
because-chore-waits = Some chores undo others.
because-no-watch = A watch follows hot work.
because-no-words = Whoever reads it has only your words.
because-stewards-act = A steward answers for the room.
because-not-a-signer = A signer answers for a training.
because-own-sign-off = Two see more than one.
because-last-steward = A shop has somebody who looks after it.
because-other-answer = You will be alone with it later.
because-no-crew = A chore has its hands and its turn.
because-source = Source: { $source }.
because-ours = Sweepbell's own rule
because-book = rulebook
because-book-key = rulebook, { $key }
because-members = members list
because-practice = common practice, no source
because-book-and-members = rulebook, { $key }; members list
because-buddy-source = rulebook, { $key }; 29 CFR 1915.84 names no minutes
because-until = Until { $at }.
because-between = { $earliest } to { $latest }.
because-since = Since { $at }.
because-last-use = Last { $at }; { NUMBER($days) } days at most.
because-no-use-known = No use of it is known; { NUMBER($days) } days at most.
because-word-holds = A word holds { NUMBER($minutes) } min.
because-last-spark = Last spark { $at }, watch { NUMBER($minutes) } min.
because-at-most = { NUMBER($most) } at most.
because-characters = { $most ->
    [one] { $most } character at most.
   *[other] { $most } characters at most.
}

## Why a time is what it is

plan-out-by = Out by
plan-sweep-from = Sweep from
plan-first-bell = First bell
plan-last-spark = Last spark
plan-watch-until = Watch until
plan-free-at = Free at
plan-rule-said = You said so. You can move it.
plan-rule-chores-fit = Started then, the chores are done by out-by.
plan-rule-floor = The chores need no more than the shop holds back.
plan-rule-before-sweep = Time to finish the pass you are on.
plan-rule-watch-and-chores-fit = A spark then leaves time for the fire watch and every chore.
plan-rule-spark-not-after-sweep = No spark once the sweep begins.
plan-rule-watch-from-last-spark = It begins at the last spark.
plan-rule-watch-from-end = It began when hot work ended. A new spark starts it again.
plan-rule-all-from-now = If you start to sweep now; never before a fire watch is over.
plan-rule-after-watch = Hot work ended late: first the watch, then the sweep. Out-by cannot be kept.
plan-source-said = what you said
plan-source-chores = the rulebook's chores and reserve
plan-source-reserve = the rulebook's reserve
plan-source-watch = the rulebook's fire watch; 29 CFR 1910.252(a)(2)(iii)(B): half an hour or more, and local codes
plan-crew = { $count ->
    [1] One person sweeps.
   *[other] { $count } people sweep.
}
plan-chore = { NUMBER($minutes) } min{ $how }. { $owner }: { $text } ({ $from })
plan-by-itself = , by itself
plan-together = , { NUMBER($count) } people together
plan-with-gear = , with { $gear }
plan-learnt = What was seen is enough { NUMBER($enough-pct) } times in 100; the rulebook's minutes count { NUMBER($prior-weight) } times.
plan-order-best = In all { NUMBER($minutes) } min; no order is shorter.
plan-order-near = In all { NUMBER($minutes) } min; at most { NUMBER($gap) } min too long.
plan-bound = { $bound }: { NUMBER($minutes) } min.
plan-floor-minutes = Never less than { NUMBER($minutes) } min are held back.
plan-first-bell-minutes = { NUMBER($minutes) } min before the sweep.
plan-watch-exclusive = The watch takes one person { NUMBER($minutes) } min.
plan-watch-shared = The watch takes { NUMBER($minutes) } min, and who watches may sweep meanwhile.
plan-hot-work-ended = Hot work ended at { $at }.
plan-no-later = { $at } at the latest: no session is longer.
plan-now = Reckoned from { $at }.
plan-from-book = rulebook
plan-from-use = rulebook, for { NUMBER($minutes) } min of use
plan-from-cap = rulebook's most, for { NUMBER($minutes) } min of use
plan-from-log = { $times ->
    [1] seen once
   *[other] seen { $times } times
}
plan-bound-critical-path = Chores that wait for each other alone
plan-bound-work = All the work, shared among those free
plan-bound-gear = Chores that want the same gear alone
plan-bound-hands = Chores of many hands, which get in each other's way
plan-bound-watch = The fire watch alone
plan-time = { $name }: { $at }
plan-source = Source: { $source }.
plan-assumed = Taken for granted:
plan-assumes-last-out = Nobody else is known in the room, so its last chores are yours.
plan-assumes-others-sweep = Others are known in the room, so its last chores are theirs.
plan-assumes-gear-is-free = Gear is free for you when you need it: { $gear }.
plan-assumes-one-sweeps = You sweep alone; more of you are counted when you start the sweep.
plan-assumes-run-until-sweep = Machines that still run go on until the sweep.

## A buddy's answer that does not count

answer-ask-too-old = This ask has run out.
answer-other-ask = That answer is for another ask.
answer-used-before = That answer was used already.
answer-oneself = A buddy is somebody else.
answer-signature = That answer is not whole, or not for this room.
answer-unknown-phone = This phone does not know your buddy's phone yet.
answer-other-person = That phone belongs to somebody else.
answer-board-code = The board did not show that code just now.
answer-next-board-code = Have your buddy read the board again, or leave the code out.
answer-next-ask-too-old = Show a new code and have it scanned again.
answer-next-other-ask = Have your buddy scan the code that is on your screen now.
answer-next-oneself = Ask someone in the room to scan your code.
answer-next-signature = Have your buddy scan your code again, here in the room.
answer-next-unknown-phone = Have them show their card from Book, scan it, then scan their answer. Or ask someone else.
answer-next-other-person = Have your buddy use their own phone.

## A code that could not be read

code-other-shop = This code belongs to another shop ({ $host }).
code-newer = This code was made by a newer app.
code-damaged = This code did not come across whole.
code-foreign = This is not a code of this shop.
code-next-other-shop = Scan a code that hangs in this shop.
code-next-newer = Load the newest app, then scan again.
code-next-damaged = Clean the lens, hold still, scan again.
code-next-foreign = Scan the code at the door, or the one on the other phone.

## A line that the hub did not take

entry-damaged = This entry changed after it was signed.
entry-other-device = This entry was signed by another phone.
entry-gap = Entries before this one did not reach the shop.
entry-fork = The shop already has a different entry in this place.
entry-declared-lost = The shop's log went on without this entry.
entry-other-member = This entry speaks for another member.
entry-unreadable = The shop cannot read this entry.
entry-not-allowed = This entry says what its member may not say.
entry-unknown = The shop did not count this entry.
entry-next-damaged = It stays on this phone. Show it to the steward.
entry-next-other-device = Send it from the phone that wrote it.
entry-next-gap = Nothing to do: they are sent together next time.
entry-next-fork = Show it to the steward, and join again with a new code.
entry-next-unreadable = Load the newest app, then show it to the steward.
entry-next-not-allowed = Ask a steward to say it instead.

## The wall board

board-title = Board
board-code = Code for buddies
board-no-room = The rulebook has no such room.
board-with = with { $names }
board-tagged = { $machine } is tagged out: { $problem }
board-no-hub = No hub now: this is what was last known.
board-bell-sweep = { $clock }: somebody's sweep begins now. Look up from your work.
board-bell-watch = { $clock }: a fire watch is over. Look once more where the hot work was.
board-bell-last = { $clock }: somebody is past their out-by.
board-bell-clear = { $clock }: everybody out. Switch off and go by the nearest way. Then muster.
board-bell-for = { $name }. { $words }
board-touch-once = Touch this board once: only then may its browser ring.
board-watch = { $minutes ->
    [one] fire watch, 1 minute left
   *[other] fire watch, { $minutes } minutes left
}
board-watch-over = fire watch is over

## The first pages, shown once

welcome-title-time = It keeps your time
welcome-title-each-other = You look after each other
welcome-title-home-screen = Keep it at hand
welcome-time = Say when you must be out. Sweepbell reckons back from there: when to stop hot work, when to sweep.
welcome-rule = This rule is your session. It rings while there is still time.
welcome-buddy = Some machines ask for a buddy. You show each other a code; no network is needed.
welcome-unwatched = Nobody is watched. Saying no at the door is written down nowhere, and leaving is never blocked.
welcome-caution = It makes no machine safe. Your training and the shop's rules come first.
welcome-why-home-screen = On the home screen it opens at once, without a network.
welcome-is-there = It is there already.
welcome-browser-asks = This browser can put it there for you.
welcome-by-share-sheet = Press the share button of the browser, then “Add to Home Screen”.
welcome-by-menu = Open the menu of the browser, then “Install” or “Add to Home screen”.
welcome-on-computer = On a computer: the sign at the end of the address line, or the browser's menu, then “Install”. A bookmark does as well.
welcome-install = Put it there
welcome-next = Next
welcome-begin = To the door
welcome-skip = Skip

## Today: what needs the steward

today-needs = What needs you
today-none = Nothing needs you now, as far as this phone knows.
today-who-is-in = Who is in
today-past-out-by = { $name } in { $room } meant to be out by { $out-by }.
today-past-out-by-next = Call them, or have somebody look in. If nobody answers, go there or call for help.

walk-left = { NUMBER($left) } of { NUMBER($count) } still to walk
walk-how = Go to each place and scan its code there. Read or hear what it says; where it asks, answer. Nobody keeps count of wrong answers.
walk-changed-how = Some of it changed since your walk. Only that is to be walked again.
walk-done-how = You have walked it all. A steward inducts you now.
walk-inducted = You are inducted until { $day }. There is nothing new to walk.
walk-scan = Scan a stop
walk-next = Scan the next stop
walk-aloud = Read it aloud
walk-seen = Seen and understood
walk-read = I have read it
walk-behind = This one is behind you.
walk-show = Show this to the steward
walk-show-how = Their phone scans it under People, and says that you are inducted. No network is needed.
walk-code = That you have walked it all, as a code
walk-stops = The stops
walk-stops-how = Is a code missing there? Touch its line.
walk-door = At the door, each time
walk-state-behind = walked
walk-state-changed = changed since
walk-state-ahead = to walk
standing-induction = Induction
standing-to-walk = To the walk
standing-may = What you may run
standing-may-none = Nothing yet. You may sweep, and be a buddy, once you are inducted.
standing-next = What comes next
standing-next-none = You are signed off on everything here.
standing-no = not yet
standing-until = until { $day }
standing-use-before = until { $day }, if used before { $before }
standing-lapsed = lapsed on { $day }
standing-stale = not used for { NUMBER($days) } days: go through it with a signer once
standing-signers = Signs others off: { $names }
standing-no-signers = Nobody signs others off on it yet. Ask a steward.
standing-shown-how = Did somebody sign you off just now? Scan the code on their phone, and it counts here at once.
standing-scan = Scan their code
people-name = Name
people-name-hint = A part of it is enough.
people-scan = Scan somebody's walk
people-nobody = Nobody here has that in their name.
people-more = { $count ->
    [one] and one more: type more of the name
   *[other] and { $count } more: type more of the name
}
people-others = Look for somebody else
people-role-member = member
people-role-signer = signs others off
people-role-steward = steward
people-walked = They have walked every stop, as it stands now.
people-walked-next = Ask them what they saw, then induct them below.
people-walked-other = Their walk is of other rules than this phone has.
people-walked-other-next = Let both phones meet the hub, then look again.
people-sign-offs = Sign-offs
people-unknown = What they are signed off on already, this phone does not know. Their own does.
people-induct = Induct them
people-induct-again = Induct anew
people-take-back = Take it back
people-take-back-spoken = Take it back: { $training }
people-sign = Sign off
people-sign-spoken = Sign off: { $training }
people-together = Together, at the machine. Touch each line once it was done.
people-tick-all = When every line is done, it can be signed.
people-signed = We did it all: sign
people-show = Show this to their phone
people-show-how = { $name } scans it under "What I may run". It counts there at once, without a network.
people-code = What was signed, as a code
people-role = Role
people-role-how = A signer signs others off on machines. A steward looks after the shop. There is always one steward at least.
people-leaves = Leaving
people-held = Take along what is held about them
people-leave-how = Their phones are taken off, and all that the hub holds about them is erased, but for what is still in force, a tag on a machine, say. For good.
people-leave = They leave the shop
people-leave-sure = For good: take off and erase
people-left = { $count ->
    [one] One line was erased, and their phones are taken off.
   *[other] { $count } lines were erased, and their phones are taken off.
}
people-left-next = Take their lines out of the members file as well.

## The rulebook desk

rules-how = Written here, in force for nobody until it is published. Sessions under way keep the rules that they began with.
rules-toml = The rulebook, as TOML
rules-problems = What is wrong
rules-place = Line { NUMBER($line) }, column { NUMBER($column) }.
rules-no-problem = No problem found.
rules-orphans = Running now, and not in this rulebook: { $machines }.
rules-orphans-next = Wait until they stand. Published all the same, whoever runs them keeps the old rules until they leave.
rules-changes = What it changes
rules-no-changes = Nothing, against the rules in force.
rules-evening = Try an evening
rules-evening-how = Each press is half an hour more at a machine. Nothing is written down.
rules-evening-change = Change the evening, or the rules.
rules-used = { $name }, { $length }
rules-crew = { $count ->
    [one] One person sweeps
   *[other] { $count } people sweep
}
rules-evening-none = No evening
rules-step = { $from } to { $to }: { $what }
rules-reserve = { NUMBER($minutes) } min are held back for the sweep.
rules-publishing = Publish
rules-publishing-how = It is in force at once for every session that begins, on each phone as soon as it reaches the hub.
rules-note = Why, in a few words
rules-not-ready = There is something to publish once no problem is found and something differs.
rules-publish = Publish these rules
rules-publish-sure = In force for everybody: publish
rules-published = Published as number { NUMBER($number) }.
rules-in-force = Back to the rules in force
rules-before = What was published
rules-none-before = Nothing yet: the shop’s file is in force.
rules-version = { NUMBER($number) }, { $when }, by { $by }
rules-put-back = Put it in the text
rules-starts = To begin with
rules-start-metal = A metal room
rules-start-wood = A wood room
rules-start-mixed = Both
## Figures: what months were like, for the steward and the board

figures-this-month = This month
figures-last-month = Last month
figures-all = All that is kept
figures-of = Of which stretch?
figures-from-to = { $from } to { $to }
figures-counted = Counted on this phone, from all of the log that it has been told.
figures-demo = Demo data: shop, members and log are invented.
figures-sheet = Print this on one sheet
figures-files = Take the log along
figures-files-how = The whole log as the hub has it, for other programs. It names members: whoever hands it on answers for it. In tables, a text that a spreadsheet would take for a formula has an apostrophe before it.
figures-file-log = Every entry, a line each (JSON lines)
figures-file-calendar = Sessions and rounds due (calendar)
figures-file-table = { $name } (table)
figures-table-sessions = Sessions
figures-table-uses = Uses of machines
figures-table-chores = Chores
figures-table-rounds = Rounds
figures-table-finds = What was found
figures-table-tags = Tags
figures-table-incidents = Incidents
figures-none = Nothing of the kind.
figures-sessions = Sessions
figures-people = People
figures-there = Time in the rooms
figures-open = Still open
figures-busy = Busy hours
figures-busy-how = Hours that people were there, together, by weekday. Each column is three hours, from the hour at its head.
figures-weekday = Day
figures-monday = Mon
figures-tuesday = Tue
figures-wednesday = Wed
figures-thursday = Thu
figures-friday = Fri
figures-saturday = Sat
figures-sunday = Sun
figures-machines = Hours by machine
figures-machine = Machine
figures-uses = Uses
figures-time = Time
figures-more-machines = { $count ->
    [one] One more machine
   *[other] { NUMBER($count) } more machines
}
figures-sweeps = How rooms were left
figures-complete = All done
figures-incomplete = Something left
figures-not-begun = Of these, never swept
figures-how = How
figures-times = Times
figures-left = Left undone
figures-reserve = The reserve against reality
figures-reserve-said = { NUMBER($within) } of { NUMBER($of) } whole sweeps ended by their planned end, and { NUMBER($chores-within) } of { NUMBER($chores-of) } timed chores took no longer than planned. The rulebook asks for { NUMBER($asked) } of 100 chores.
figures-reserve-none = No whole sweep to judge the reserve by.
figures-ended = Ended
figures-sweeps-of = Sweeps
figures-early-over = over { NUMBER($minutes) } min early
figures-early = { NUMBER($from) } to { NUMBER($to) } min early
figures-on-time = up to { NUMBER($minutes) } min early, or just then
figures-late = { NUMBER($from) } to { NUMBER($to) } min late
figures-late-up-to = up to { NUMBER($minutes) } min late
figures-late-over = over { NUMBER($minutes) } min late
figures-safety = Buddies and fire watches
figures-what = What
figures-buddy-uses = Uses that ask for a buddy
figures-buddy-gaps = Gaps in cover
figures-watches-needed = Fire watches needed
figures-watches-kept = Kept to their end
figures-watches-cut = Cut short
figures-found = How it was found
figures-found-how = Only what somebody wrote down. Where people look more often, more is found: read both columns.
figures-place = Place
figures-mess = Mess
figures-clean = Clean
figures-mess-hours = Mess found, by hour of the day
figures-tagged = Tagged out
figures-days-out = Days out
figures-still-out = still out
figures-rounds = Rounds
figures-round = Round
figures-done = Done
figures-done-late = Of these, late
figures-overdue = overdue

## Rounds kept: due, overdue, and who did what when

kept-how = Print this for an inspector. A round is ticked where it is done: scan its code there.
kept-print = Print these
kept-when = When
kept-who = By
kept-nothing = Nobody has written down that it was done.
kept-every = { $room }. Every { $every }.
kept-source = Asked for by: { $source }
kept-no-source = No source is named.
kept-late = Late: it was due { $date }.
kept-due = Due by { $date }.
kept-scan-title = A round
kept-scan-act = I have done it, here
kept-scan-how = One touch writes it down under your name.
kept-day = { $count ->
    [one] day
   *[other] { NUMBER($count) } days
}
kept-week = { $count ->
    [one] week
   *[other] { NUMBER($count) } weeks
}
kept-month = { $count ->
    [one] month
   *[other] { NUMBER($count) } months
}
kept-year = { $count ->
    [one] year
   *[other] { NUMBER($count) } years
}

## Print: codes to hang up

posted-how = One card for each place, to cut out along the dashes. Read from up to half a metre; keep them clean, and away from grinding dust.
posted-leads = The codes lead to { $origin }. Phones must reach the hub there.
posted-which = Which cards?
posted-doors = Doors
posted-machines = Machines
posted-stops = Stops
posted-rounds = Rounds
posted-print = { $count ->
    [one] Print one card
   *[other] Print { NUMBER($count) } cards
}
posted-none = The rulebook has none.
posted-door-act = Scan before you work here.
posted-machine-act = Scan to start it, or to tag it out.
posted-stop-act = Scan on your walk round the shop.
posted-round-act = Done it? Scan here.
posted-code = Code of { $name }
posted-emergency = In danger: stop, leave, call { $number }.
posted-no-number = In danger: stop, leave, call the emergency number.
posted-caution = Supports judgement; makes no machine safe. The shop's rules and licensed practice come first.
posted-stop-name = Stop { NUMBER($number) } of { NUMBER($of) }, { $room }
today-incident = Told: { $note }
today-incident-next = Read it, talk to whoever told it, say what was changed.
today-evening = { $name }, { $room }, left { $when }
today-watch-short = The fire watch was { NUMBER($minutes) } min short.
today-gap = { $machine } ran without a buddy, { $from } to { $to }.
today-missing = Not ticked: { $chores }
today-they-say = They say: { $why }
today-fire-next = Ask how it went, and whether anybody looked at the hot-work place later.
today-evening-next = Have a word, with interest in their work first.
today-out = { $machine } is out: { $problem }
today-out-next = Nobody has said yet what is done about it.
today-out-check = Mended by { $name }. A second person has to check it.
today-out-waits = A part is waited for.
today-rounds = { $count ->
    [one] A round is due
   *[other] { $count } rounds are due
}
today-rounds-late = { $count ->
    [one] A round is late
   *[other] { $count } rounds are late
}
today-round-since = Due { $when }.
today-round-next = Do it, or ask somebody who is in.
today-mess = A mess: { $place }
today-mess-next = See who could have left it, and ask.
today-mess-asked = They were asked. Note how it ended.
today-seen-to = Seen to
today-to-thread = To its thread
today-to-find = Who could have left it
today-to-incident = To the incidents
today-to-rounds = To the rounds
today-is-in = { $name }, out by { $out-by }

repairs-none = Nothing is tagged out, as far as this phone knows.
repairs-tagged = Tagged out by { $name }: { $problem }
repairs-picture-of = Picture of { $machine }, as it was tagged out
repairs-picture-missing = The picture is not here yet: it comes once the phone that took it, and this one, have reached the hub.
repairs-by = { $step }, { $name }
repairs-mended-by = Mended by { $name }. It stays out until somebody else has checked it.
repairs-nothing-yet = Nobody has said yet what is done about it.
repairs-say = Say more
repairs-words = In a few words
repairs-words-hint = What was seen, what was done, which part.
repairs-until = If a part is waited for: how long?
repairs-week = A week
repairs-two-weeks = Two weeks
repairs-month = Four weeks
repairs-remark = Only a remark
repairs-waits = A part is waited for
repairs-mended = It is mended
repairs-check = Check it and give it back
repairs-check-how = At the machine, by somebody else than who mended it:
repairs-check-tools = Tools, rags and loose parts are off it.
repairs-check-guards = Guards and covers are back, and hold.
repairs-check-clear = Everybody is clear of it, and knows that it goes back.
repairs-check-tag = The tag comes off by your own hand.
repairs-check-source = After 29 CFR 1910.147(e) and 1910.145(f). The shop's own rules and local codes come first, and this replaces no lock.
repairs-check-act = All so. It may be used again
repairs-days = Out in the last { NUMBER($days) } days
repairs-days-row = { NUMBER($days) } days { NUMBER($hours) } hours in all, out { $times ->
    [one] once
   *[other] { NUMBER($times) } times
}

finds-none = No mess was found in the last { NUMBER($days) } days.
finds-by = Found by { $name }, { $when }
finds-clean-at = Last known to be clean { $when }
finds-clean-never = Not known to have been clean before.
finds-nobody = No use of it is in the log.
finds-rule = When it was used since it was last clean
finds-footage = { NUMBER($minutes) } min of footage in all
finds-window = { $from } to { $to }
finds-ticked = Ticked: { $chores }
finds-picture-of = Picture of what was done: { $chore }
finds-unticked = Not ticked: { $chores }
finds-clock = The clock of their phone jumped by { NUMBER($seconds) } s; allow for that.
finds-ask = A message to ask { $name } with
finds-message = Hello { $name }, { $place } was not clean on { $when }. You used it before ({ $from }). Do you remember how you left it? If something got in the way, tell me; I would like to make it easier.
finds-message-hint = Touch it, and all of it is marked to be copied.
finds-asked = They were asked
finds-outcome = Note how it ended
finds-outcome-hint = What it was, and what helps. No names are needed.
finds-seen-to = Seen to
finds-patterns = What repeats, in { NUMBER($days) } days
finds-machines = Messes, of a machine's uses
finds-chores = Chores not ticked, of the times they were due
finds-people = Evenings with something not ticked
finds-people-how = In the order of names. A few evenings say little about anybody: see how wide the interval is.
finds-share = { NUMBER($times) } of { NUMBER($of) }; { NUMBER($low) } to { NUMBER($high) } in 100
finds-interval = The second figures are the interval that holds the true share 95 times in 100 (Clopper and Pearson).

incidents-none = Nothing was told that nobody has seen to.
incidents-first = If somebody is hurt, help and call first; write later. First aid is for who is trained in it.
incidents-guard = Write what was seen and done. No diagnosis, and no guess at whose fault it was. Local law says what must be reported to whom.
incidents-told = Told by { $name }, { $when }
incidents-near-miss = Near miss
incidents-incident = Incident
incidents-aid-given = First aid was given
incidents-aid-none = No first aid
incidents-aid = Was first aid given?
incidents-yes = Yes
incidents-no = No
incidents-kind = What was it?
incidents-place = Where?
incidents-place-none = Not at a machine or in a room
incidents-follow = Follow it up
incidents-follow-hint = What was looked into, what was changed.
incidents-remark = Only a remark
incidents-changed = This was changed
incidents-seen-to = Seen to

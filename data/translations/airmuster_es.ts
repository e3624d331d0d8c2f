<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="es" sourcelanguage="en">
<context>
    <name>desktop</name>
    <message>
        <source>since %1</source>
        <translation>desde: %1</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>Not heard for more than %1: %2. Entries made there since are not shown.</source>
        <translation>Sin noticias desde hace más de %1: %2. Lo anotado allí después no aparece.</translation>
    </message>
    <message>
        <source>Entries of two stations lie so close that which came first is not certain: %1.</source>
        <translation>Hay anotaciones de dos puestos tan próximas que no es seguro cuál fue antes: %1.</translation>
    </message>
    <message>
        <source>Nothing recorded for a long time; look at the unit first: %1.</source>
        <translation>Sin anotaciones desde hace mucho; mirar antes el ventilador: %1.</translation>
    </message>
    <message>
        <source>and %1 more</source>
        <translation>y %1 más</translation>
    </message>
    <message>
        <source>In use, although something stands against it: %1.</source>
        <translation>En uso aunque consta algo en contra: %1.</translation>
    </message>
</context>
<context>
    <name>desktop::ActList</name>
    <message>
        <source>Use</source>
        <translation>Uso</translation>
    </message>
    <message>
        <source>&amp;Start of use</source>
        <translation>&amp;Inicio de uso</translation>
    </message>
    <message>
        <source>E&amp;mergency start</source>
        <translation>Inicio de emergencia (&amp;U)</translation>
    </message>
    <message>
        <source>&amp;Pause</source>
        <translation>&amp;Pausar</translation>
    </message>
    <message>
        <source>&amp;Resume</source>
        <translation>&amp;Reanudar</translation>
    </message>
    <message>
        <source>&amp;End of use</source>
        <translation>&amp;Final de uso</translation>
    </message>
    <message>
        <source>S&amp;wap for another unit</source>
        <translation>Cam&amp;biar por otro ventilador</translation>
    </message>
    <message>
        <source>Unit</source>
        <translation>Ventilador</translation>
    </message>
    <message>
        <source>Patient &amp;group</source>
        <translation>&amp;Grupo de pacientes</translation>
    </message>
    <message>
        <source>Switched &amp;on</source>
        <translation>&amp;Encendido</translation>
    </message>
    <message>
        <source>Switched o&amp;ff</source>
        <translation>&amp;Apagado</translation>
    </message>
    <message>
        <source>Seen &amp;here</source>
        <translation>Visto a&amp;quí</translation>
    </message>
    <message>
        <source>So&amp;iled</source>
        <translation>En&amp;suciado</translation>
    </message>
    <message>
        <source>&amp;Note</source>
        <translation>&amp;Nota</translation>
    </message>
    <message>
        <source>Trouble</source>
        <translation>Incidencias</translation>
    </message>
    <message>
        <source>&amp;Alarm</source>
        <translation>A&amp;larma</translation>
    </message>
    <message>
        <source>Fa&amp;ult</source>
        <translation>A&amp;vería</translation>
    </message>
    <message>
        <source>Fault put righ&amp;t</source>
        <translation>Avería resuel&amp;ta</translation>
    </message>
    <message>
        <source>Out of ser&amp;vice</source>
        <translation>Fuera &amp;de servicio</translation>
    </message>
    <message>
        <source>&amp;Back in service</source>
        <translation>Dev&amp;olver al servicio</translation>
    </message>
    <message>
        <source>Department</source>
        <translation>Servicio</translation>
    </message>
    <message>
        <source>Servi&amp;ce</source>
        <translation>Revisión té&amp;cnica</translation>
    </message>
    <message>
        <source>Permit a &amp;deviation</source>
        <translation>Autori&amp;zar una excepción</translation>
    </message>
    <message>
        <source>Notice carried out (&amp;Q)</source>
        <translation>Aviso cu&amp;mplido</translation>
    </message>
    <message>
        <source>The use is paused already.</source>
        <translation>El uso ya está en pausa.</translation>
    </message>
    <message>
        <source>The use is not paused.</source>
        <translation>El uso no está en pausa.</translation>
    </message>
    <message>
        <source>By the log the unit is on.</source>
        <translation>Según el registro, el ventilador está encendido.</translation>
    </message>
    <message>
        <source>It is not recorded that the unit is on.</source>
        <translation>No consta que el ventilador esté encendido.</translation>
    </message>
    <message>
        <source>No fault stands on this unit.</source>
        <translation>No consta ninguna avería en este ventilador.</translation>
    </message>
    <message>
        <source>This unit is not out of service.</source>
        <translation>Este ventilador no está fuera de servicio.</translation>
    </message>
    <message>
        <source>This unit is retired: only a note can be entered.</source>
        <translation>Este ventilador está retirado: solo se puede anotar una nota.</translation>
    </message>
    <message>
        <source>By the log this unit is not in use.</source>
        <translation>Según el registro, este ventilador no está en uso.</translation>
    </message>
    <message>
        <source>The policy edition names no reason to be out of service.</source>
        <translation>La edición de las normas no nombra ningún motivo para dejar fuera de servicio.</translation>
    </message>
    <message>
        <source>The policy edition names no service.</source>
        <translation>La edición de las normas no nombra ninguna revisión técnica.</translation>
    </message>
    <message>
        <source>The policy edition names no alarm.</source>
        <translation>La edición de las normas no nombra ninguna alarma.</translation>
    </message>
    <message>
        <source>Nothing that stands on this unit may be permitted.</source>
        <translation>Nada de lo que consta en este ventilador se puede autorizar.</translation>
    </message>
    <message>
        <source>No field notice stands on this unit.</source>
        <translation>Ningún aviso de seguridad afecta a este ventilador.</translation>
    </message>
</context>
<context>
    <name>desktop::ActScene</name>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>y %n más</numerusform>
            <numerusform>y %n más</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>desktop::ActSheet</name>
    <message>
        <source>Why it was not kept</source>
        <translation>Por qué no se ha guardado</translation>
    </message>
    <message>
        <source>Back, keep nothing</source>
        <translation>Volver sin guardar</translation>
    </message>
    <message>
        <source>First: %1</source>
        <translation>Primero: %1</translation>
    </message>
    <message>
        <source>Not kept yet: by the log this unit stands otherwise than when this was opened. Look at it again, then press.</source>
        <translation>Aún no se ha guardado: según el registro, este ventilador ya no está como al abrir esto. Volver a mirarlo y después pulsar.</translation>
    </message>
</context>
<context>
    <name>desktop::AnotherSheet</name>
    <message>
        <source>Who did it?</source>
        <translation>¿Quién lo hizo?</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>I did it myself</source>
        <translation>Lo hice yo</translation>
    </message>
    <message>
        <source>A second person verifies it</source>
        <translation>Lo verifica una segunda persona</translation>
    </message>
</context>
<context>
    <name>desktop::BedsideDesk</name>
    <message>
        <source>What is in doubt</source>
        <translation>Qué está en duda</translation>
    </message>
    <message>
        <source>Way to ready</source>
        <translation>Puesta a punto</translation>
    </message>
    <message>
        <source>Set-up</source>
        <translation>Montaje</translation>
    </message>
    <message>
        <source>Other entries</source>
        <translation>Otras anotaciones</translation>
    </message>
    <message>
        <source>History</source>
        <translation>Historial</translation>
    </message>
    <message>
        <source>Leave it, open %1</source>
        <translation>Dejarla y abrir %1</translation>
    </message>
    <message>
        <source>Stay with %1</source>
        <translation>Seguir con %1</translation>
    </message>
    <message>
        <source>Record that unit %1 was started now, in an emergency?</source>
        <translation>¿Anotar que el uso del ventilador %1 ha empezado ahora, en una emergencia?</translation>
    </message>
    <message>
        <source>Started now, emergency</source>
        <translation>Iniciado ahora, emergencia</translation>
    </message>
    <message>
        <source>Back, record nothing</source>
        <translation>Volver sin anotar</translation>
    </message>
    <message>
        <source>Read %1. The logbook is still being read.</source>
        <translation>Leído: %1. El libro de registro todavía se está leyendo.</translation>
    </message>
    <message>
        <source>Unit %1 is open.</source>
        <translation>El ventilador %1 está abierto.</translation>
    </message>
    <message>
        <source>Unit %1 is recorded at another place: %2. Is it here now, %3?</source>
        <translation>El ventilador %1 está anotado en otro lugar: %2. ¿Está ahora aquí, %3?</translation>
    </message>
    <message>
        <source>It is here: record that</source>
        <translation>Está aquí: anotarlo</translation>
    </message>
    <message>
        <source>Leave it as it is</source>
        <translation>Dejarlo como está</translation>
    </message>
    <message>
        <source>Emergency start of unit %1, now</source>
        <translation>Inicio de emergencia del ventilador %1, ahora</translation>
    </message>
    <message>
        <source>You are entering something on unit %1. Leave that and open unit %2? Nothing of it is kept in the log. What you typed stays here as a draft, and is back when you open %1 again.</source>
        <translation>Hay una anotación a medias del ventilador %1. ¿Dejarla y abrir el ventilador %2? En el registro no se guarda nada de ella. Lo escrito queda aquí como borrador y vuelve al abrir %1 otra vez.</translation>
    </message>
    <message>
        <source>This was being entered on unit %1 and is not kept yet.</source>
        <translation>Esto se estaba anotando del ventilador %1 y aún no se ha guardado.</translation>
    </message>
    <message>
        <source>No unit, part or model of parts is known here by the number that was typed.</source>
        <translation>Aquí no se conoce ningún ventilador, pieza ni modelo de pieza por el número escrito.</translation>
    </message>
    <message>
        <source>Unit %1: %2. Is it here now, %3?</source>
        <translation>Ventilador %1: %2. ¿Está ahora aquí, %3?</translation>
    </message>
</context>
<context>
    <name>desktop::CheckAttempt</name>
    <message>
        <source>Unit %1: %2</source>
        <translation>Ventilador %1: %2</translation>
    </message>
    <message>
        <source>Nobody is here: keep it, it does not count</source>
        <translation>No hay nadie: guardar, no cuenta</translation>
    </message>
    <message>
        <source>Unit %1: %2, done at %3</source>
        <translation>Ventilador %1: %2, hecho a las %3</translation>
    </message>
</context>
<context>
    <name>desktop::Closing</name>
    <message>
        <source>%1, unit %2</source>
        <translation>%1, ventilador %2</translation>
    </message>
    <message>
        <source>%1, put aside</source>
        <translation>%1, apartado</translation>
    </message>
    <message>
        <source>%1, put aside by %2</source>
        <translation>%1, apartado por %2</translation>
    </message>
    <message>
        <source>Not kept yet:</source>
        <translation>Aún sin guardar:</translation>
    </message>
    <message>
        <source>This computer is to be shut down, or you signed out of it. It was asked to wait; once this window is closed, do that again.</source>
        <translation>Se va a apagar este ordenador o a cerrar su sesión. Se le ha pedido que espere; una vez cerrada esta ventana, repetirlo.</translation>
    </message>
    <message>
        <source>Close the window all the same? That is lost then. What is in the logbook stays.</source>
        <translation>¿Cerrar la ventana de todos modos? Lo anterior se pierde. Lo que está en el registro se queda.</translation>
    </message>
    <message>
        <source>Close it, lose that</source>
        <translation>Cerrar y perderlo</translation>
    </message>
    <message>
        <source>Keep writing</source>
        <translation>Seguir escribiendo</translation>
    </message>
    <message>
        <source>It is noted on this computer, and recorded once this window is open again and the logbook can be written. Until then nobody sees it.</source>
        <translation>Queda apuntado en este ordenador y se anota cuando esta ventana vuelva a estar abierta y se pueda escribir en el libro de registro. Hasta entonces nadie lo ve.</translation>
    </message>
    <message>
        <source>Close the window all the same?</source>
        <translation>¿Cerrar la ventana de todos modos?</translation>
    </message>
    <message>
        <source>Close it</source>
        <translation>Cerrar</translation>
    </message>
    <message>
        <source>Leave it open</source>
        <translation>Dejarla abierta</translation>
    </message>
    <message>
        <source>Close the window all the same? All but what is noted is lost then. What is in the logbook stays.</source>
        <translation>¿Cerrar la ventana de todos modos? Se pierde todo menos lo apuntado. Lo que está en el registro se queda.</translation>
    </message>
</context>
<context>
    <name>desktop::CodePage</name>
    <message>
        <source>The recovery code</source>
        <translation>El código de recuperación</translation>
    </message>
    <message>
        <source>I have written it down</source>
        <translation>Ya está escrito en papel</translation>
    </message>
    <message>
        <source>If no manager can sign in any more, this code gives one of them a new PIN, once. Write it on paper and lock it away. It is not shown again.</source>
        <translation>Si quien gestiona el libro ya no puede iniciar sesión, este código le da un PIN nuevo, una sola vez. Escribirlo en papel y guardarlo bajo llave. No se vuelve a mostrar.</translation>
    </message>
    <message>
        <source>The logbook is begun: %1
%2 is its manager and is signed in.</source>
        <translation>El libro de registro está empezado: %1
%2 lo gestiona y ha iniciado sesión.</translation>
    </message>
    <message>
        <source>Recovery code: %1</source>
        <translation>Código de recuperación: %1</translation>
    </message>
</context>
<context>
    <name>desktop::ConfirmSheet</name>
    <message>
        <source>Entries that wait for your name</source>
        <translation>Anotaciones que esperan la confirmación propia</translation>
    </message>
    <message>
        <source>They were kept under your name without your PIN, and count already. Say whether it was you.</source>
        <translation>Se guardaron a nombre propio sin el PIN y ya cuentan. Indicar si fue la propia persona.</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>It was me: confirm all %1</source>
        <translation>Fui yo: confirmar las %1</translation>
    </message>
    <message>
        <source>It was me</source>
        <translation>Fui yo</translation>
    </message>
    <message>
        <source>It was somebody else</source>
        <translation>Fue otra persona</translation>
    </message>
    <message>
        <source>%1: unit %2, %3, %4</source>
        <translation>%1: ventilador %2, %3, %4</translation>
    </message>
    <message>
        <source>Nothing waits for your name any more.</source>
        <translation>Ya no queda nada a la espera de confirmación propia.</translation>
    </message>
</context>
<context>
    <name>desktop::CorrectionSheet</name>
    <message>
        <source>Move the session to another unit</source>
        <translation>Trasladar la sesión a otro ventilador</translation>
    </message>
    <message>
        <source>Move this entry to another unit</source>
        <translation>Trasladar esta anotación a otro ventilador</translation>
    </message>
    <message>
        <source>Strike the session through</source>
        <translation>Tachar la sesión</translation>
    </message>
    <message>
        <source>Strike this entry through</source>
        <translation>Tachar esta anotación</translation>
    </message>
    <message>
        <source>Unit that was meant: scan it, or type its serial</source>
        <translation>Ventilador correcto: escanearlo o escribir su número de serie</translation>
    </message>
    <message>
        <source>Back, change nothing</source>
        <translation>Volver sin cambiar nada</translation>
    </message>
    <message>
        <source>Move it, and keep both to be read</source>
        <translation>Trasladar; ambas siguen legibles</translation>
    </message>
    <message>
        <source>Strike it through</source>
        <translation>Tachar</translation>
    </message>
    <message>
        <source>Reason</source>
        <translation>Motivo</translation>
    </message>
    <message>
        <source>Reason: one of these, or in your words</source>
        <translation>Motivo: uno de estos, o con otras palabras</translation>
    </message>
    <message>
        <source>Wrong unit</source>
        <translation>Ventilador equivocado</translation>
    </message>
    <message>
        <source>Entered twice</source>
        <translation>Anotado dos veces</translation>
    </message>
    <message>
        <source>Typing error</source>
        <translation>Error al escribir</translation>
    </message>
    <message>
        <source>It was not done</source>
        <translation>No se hizo</translation>
    </message>
    <message>
        <source>Nothing was changed. Say why first: press a reason or type one.</source>
        <translation>No se ha cambiado nada. Indicar antes por qué: pulsar un motivo o escribirlo.</translation>
    </message>
    <message>
        <source>Nothing was changed. Scan the unit that was meant first.</source>
        <translation>No se ha cambiado nada. Escanear antes el ventilador correcto.</translation>
    </message>
    <message>
        <source>Struck through: %1.</source>
        <translation>Tachadas: %1.</translation>
    </message>
    <message>
        <source>The unit before was still open</source>
        <translation>Seguía abierto el ventilador anterior</translation>
    </message>
    <message>
        <source>Serial mistyped</source>
        <translation>Número de serie mal escrito</translation>
    </message>
    <message>
        <source>Several units go by %1. Type the serial.</source>
        <translation>Varios ventiladores responden a %1. Escribir el número de serie.</translation>
    </message>
    <message>
        <source>No unit goes by %1.</source>
        <translation>No se conoce ningún ventilador con %1.</translation>
    </message>
    <message>
        <source>Not in use</source>
        <translation>No está en uso</translation>
    </message>
    <message>
        <source>In use since %1</source>
        <translation>En uso desde %1</translation>
    </message>
    <message>
        <source>Move it to %1, and keep both to be read</source>
        <translation>Trasladar a %1; ambas siguen legibles</translation>
    </message>
    <message>
        <source>Why nothing was changed</source>
        <translation>Por qué no se ha cambiado nada</translation>
    </message>
    <message>
        <source>Moved to %1:</source>
        <translation>Al pasar a %1:</translation>
    </message>
    <message>
        <source>Move it to %1 all the same</source>
        <translation>Pasarlo a %1 de todos modos</translation>
    </message>
    <message>
        <source>Do not move it</source>
        <translation>No pasarlo</translation>
    </message>
    <message>
        <source>Moved to %1, entered anew there: %2.</source>
        <translation>Pasado a %1, anotadas de nuevo allí: %2.</translation>
    </message>
    <message>
        <source>To be struck through:</source>
        <translation>Para tachar:</translation>
    </message>
    <message>
        <source>To be moved to %1:</source>
        <translation>Para pasar a %1:</translation>
    </message>
</context>
<context>
    <name>desktop::DepartmentForms</name>
    <message>
        <source>Service</source>
        <translation>Revisión técnica</translation>
    </message>
    <message>
        <source>Which service?</source>
        <translation>¿Qué revisión técnica?</translation>
    </message>
    <message>
        <source>What came of it?</source>
        <translation>¿Con qué resultado?</translation>
    </message>
    <message>
        <source>Passed</source>
        <translation>Apto</translation>
    </message>
    <message>
        <source>Failed</source>
        <translation>No apto</translation>
    </message>
    <message>
        <source>The unit was in use</source>
        <translation>El ventilador estaba en uso</translation>
    </message>
    <message>
        <source>The unit was not found</source>
        <translation>No se encontró el ventilador</translation>
    </message>
    <message>
        <source>Put off</source>
        <translation>Se aplazó</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>until %1</source>
        <translation>hasta las %1</translation>
    </message>
    <message>
        <source>Permit a deviation</source>
        <translation>Autorizar una excepción</translation>
    </message>
    <message>
        <source>It is shown wherever the unit is, and on the month&apos;s report.</source>
        <translation>Aparece dondequiera que aparezca el ventilador y en el informe del mes.</translation>
    </message>
    <message>
        <source>What is permitted?</source>
        <translation>¿Qué se autoriza?</translation>
    </message>
    <message>
        <source>For how long?</source>
        <translation>¿Por cuánto tiempo?</translation>
    </message>
    <message>
        <source>Wh&amp;y?</source>
        <translation>¿Por &amp;qué?</translation>
    </message>
    <message>
        <source>Permit it %1: %2</source>
        <translation>Autorizarlo %1: %2</translation>
    </message>
    <message>
        <source>Field notice carried out</source>
        <translation>Aviso de seguridad cumplido</translation>
    </message>
    <message>
        <source>Which notice?</source>
        <translation>¿Qué aviso?</translation>
    </message>
    <message>
        <source>&amp;What was done? It may stay empty</source>
        <translation>¿&amp;Qué se hizo? Puede quedar vacío</translation>
    </message>
    <message>
        <source>Carried out on this unit: %1</source>
        <translation>Cumplido en este ventilador: %1</translation>
    </message>
    <message>
        <source>Notice %1</source>
        <translation>Aviso %1</translation>
    </message>
</context>
<context>
    <name>desktop::DepartmentPage</name>
    <message>
        <source>Your department</source>
        <translation>El servicio</translation>
    </message>
    <message>
        <source>Go on</source>
        <translation>Seguir</translation>
    </message>
    <message>
        <source>Hospital</source>
        <translation>Hospital</translation>
    </message>
    <message>
        <source>Department</source>
        <translation>Servicio</translation>
    </message>
    <message>
        <source>Name of this computer in the log</source>
        <translation>Nombre de este ordenador en el registro</translation>
    </message>
    <message>
        <source>small letters, figures and hyphens: icu-1</source>
        <translation>letras minúsculas, cifras y guiones: uci-1</translation>
    </message>
    <message>
        <source>Where the logbook lies</source>
        <translation>Dónde está el libro de registro</translation>
    </message>
    <message>
        <source>Choose another folder …</source>
        <translation>Elegir otra carpeta …</translation>
    </message>
    <message>
        <source>The hospital has no name yet. It stands at the head of every report: type it.</source>
        <translation>Todavía falta el nombre del hospital. Encabeza todos los informes: escribirlo.</translation>
    </message>
    <message>
        <source>The department has no name yet. Type it.</source>
        <translation>Todavía falta el nombre del servicio. Escribirlo.</translation>
    </message>
    <message>
        <source>This computer&apos;s name may have small letters, figures and hyphens only, at most 32: icu-1. Change it.</source>
        <translation>El nombre de este ordenador solo puede tener letras minúsculas, cifras y guiones, 32 como máximo: uci-1. Cambiarlo.</translation>
    </message>
    <message>
        <source>There is a file of that name already; nothing was done to it. Take another name, or go back to the beginning and open it.</source>
        <translation>Ya hay un archivo con ese nombre; se ha dejado como estaba. Elegir otro nombre, o volver al principio y abrirlo.</translation>
    </message>
    <message>
        <source>Where the logbook lies is not told in full. Choose a folder.</source>
        <translation>No está completa la ruta del libro de registro. Elegir una carpeta.</translation>
    </message>
</context>
<context>
    <name>desktop::EmergencyStarts</name>
    <message>
        <source>The emergency start of unit %1 has been recorded meanwhile. If the unit was not started, strike that entry through: it stands in the unit&apos;s History.</source>
        <translation>El inicio de urgencia de la unidad %1 se ha anotado entretanto. Si la unidad no se inició, tachar esa anotación: está en el historial de la unidad.</translation>
    </message>
    <message>
        <source>The emergency start of unit %1 is in the log, as %2.</source>
        <translation>El inicio de emergencia del ventilador %1 consta en el registro como %2.</translation>
    </message>
    <message>
        <source>This start stands still: its note could not be put aside, and it would be recorded later. Look whether the disk can be written: %1</source>
        <translation>Este inicio sigue pendiente: no se pudo apartar su nota y se anotaría más tarde. Comprobar si se puede escribir en el disco: %1</translation>
    </message>
</context>
<context>
    <name>desktop::EnrolSheet</name>
    <message>
        <source>Enrol units</source>
        <translation>Dar de alta ventiladores</translation>
    </message>
    <message>
        <source>Open %1 at the Bedside desk</source>
        <translation>Abrir %1 en la vista de cabecera</translation>
    </message>
    <message>
        <source>Why it was not kept</source>
        <translation>Por qué no se ha guardado</translation>
    </message>
    <message>
        <source>Back to the desk</source>
        <translation>Volver a la vista</translation>
    </message>
    <message>
        <source>Open it at the Bedside desk</source>
        <translation>Abrirlo en la vista de cabecera</translation>
    </message>
    <message>
        <source>May be enrolled by: %1.</source>
        <translation>Pueden darlos de alta: %1.</translation>
    </message>
    <message>
        <source>%1 may not enrol units. Nothing was kept. Whoever may: %2.</source>
        <translation>%1 no puede dar de alta ventiladores. No se ha guardado nada. Quién puede: %2.</translation>
    </message>
</context>
<context>
    <name>desktop::EntryStrip</name>
    <message>
        <source>What the entries will say of when and who</source>
        <translation>Qué dirán las anotaciones de cuándo y de quién</translation>
    </message>
    <message>
        <source>When?</source>
        <translation>¿Cuándo?</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Ahora</translation>
    </message>
    <message>
        <source>When: now</source>
        <translation>Cuándo: ahora</translation>
    </message>
    <message>
        <source>min ago</source>
        <translation>min antes</translation>
    </message>
    <message>
        <source>A time</source>
        <translation>Otra hora</translation>
    </message>
    <message>
        <source>When: a time</source>
        <translation>Cuándo: otra hora</translation>
    </message>
    <message>
        <source>Who?</source>
        <translation>¿Quién?</translation>
    </message>
    <message>
        <source>Me</source>
        <translation>Yo</translation>
    </message>
    <message>
        <source>Who: me</source>
        <translation>Quién: yo</translation>
    </message>
    <message>
        <source>Another</source>
        <translation>Otra persona</translation>
    </message>
    <message>
        <source>Who: another</source>
        <translation>Quién: otra persona</translation>
    </message>
    <message>
        <source>With a second</source>
        <translation>Con una segunda</translation>
    </message>
    <message>
        <source>Who: with a second person</source>
        <translation>Quién: con una segunda persona</translation>
    </message>
    <message>
        <source>For %1, %2 ago.</source>
        <translation>Con la hora de las %1, hace %2.</translation>
    </message>
    <message>
        <source>That is more than %1: the month will count it as a late entry.</source>
        <translation>Es más de %1: en el mes contará como anotación tardía.</translation>
    </message>
    <message>
        <source>Done by %1.</source>
        <translation>Hecho por %1.</translation>
    </message>
    <message>
        <source>Verified by %1.</source>
        <translation>Verificado por %1.</translation>
    </message>
    <message>
        <source>Who? As above</source>
        <translation>¿Quién? Como arriba</translation>
    </message>
    <message numerus="yes">
        <source>When: %n min ago</source>
        <translation>
            <numerusform>Cuándo: hace %n min</numerusform>
            <numerusform>Cuándo: hace %n min</numerusform>
        </translation>
    </message>
    <message>
        <source>&quot;When?&quot; is now again: nothing was entered for a while.</source>
        <translation>«¿Cuándo?» vuelve a ser ahora: hace un rato que no se anota nada.</translation>
    </message>
    <message numerus="yes">
        <source>Every entry is for %1, %2 ago, until you go back to now. That comes by itself %n min after the last entry.</source>
        <translation>
            <numerusform>Cada anotación es para %1, hace %2, hasta volver a ahora. Eso ocurre por sí solo %n min después de la última anotación.</numerusform>
            <numerusform>Cada anotación es para %1, hace %2, hasta volver a ahora. Eso ocurre por sí solo %n min después de la última anotación.</numerusform>
        </translation>
    </message>
    <message>
        <source>Go back to now</source>
        <translation>Volver a ahora</translation>
    </message>
    <message>
        <source>Stay with this time</source>
        <translation>Seguir con esta hora</translation>
    </message>
    <message numerus="yes">
        <source>When? %n min ago</source>
        <translation>
            <numerusform>¿Cuándo? Hace %n min</numerusform>
            <numerusform>¿Cuándo? Hace %n min</numerusform>
        </translation>
    </message>
    <message>
        <source>When? Now</source>
        <translation>¿Cuándo? Ahora</translation>
    </message>
    <message>
        <source>Nobody is signed in. Whoever makes an entry is asked for then.</source>
        <translation>Nadie ha iniciado sesión. Al anotar algo se pregunta quién es.</translation>
    </message>
    <message>
        <source>Who? Not signed in</source>
        <translation>¿Quién? Sin sesión</translation>
    </message>
    <message>
        <source>Who? %1</source>
        <translation>¿Quién? %1</translation>
    </message>
    <message>
        <source>When? %1</source>
        <translation>¿Cuándo? %1</translation>
    </message>
</context>
<context>
    <name>desktop::FileSheet</name>
    <message>
        <source>This folder</source>
        <translation>Esta carpeta</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>In %1</source>
        <translation>En %1</translation>
    </message>
    <message>
        <source>Up</source>
        <translation>Subir</translation>
    </message>
    <message>
        <source>Folder</source>
        <translation>Carpeta</translation>
    </message>
    <message>
        <source>Reading the folder.</source>
        <translation>Leyendo la carpeta.</translation>
    </message>
    <message>
        <source>In this folder there is no file that ends in %1.</source>
        <translation>En esta carpeta no hay ningún archivo que termine en %1.</translation>
    </message>
</context>
<context>
    <name>desktop::FirstStart</name>
    <message>
        <source>What is wrong</source>
        <translation>Qué está mal</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Finish without</source>
        <translation>Terminar sin ninguno</translation>
    </message>
    <message>
        <source>Set up this department</source>
        <translation>Preparar este servicio</translation>
    </message>
    <message>
        <source>Open the demo</source>
        <translation>Abrir la demostración</translation>
    </message>
    <message>
        <source>Open a logbook file …</source>
        <translation>Abrir un libro de registro …</translation>
    </message>
    <message>
        <source>In which folder?</source>
        <translation>¿En qué carpeta?</translation>
    </message>
    <message>
        <source>Which rulebook?</source>
        <translation>¿Qué archivo de normas?</translation>
    </message>
    <message>
        <source>Airmuster</source>
        <translation>Airmuster</translation>
    </message>
    <message>
        <source>%1 of %2: %3</source>
        <translation>%1 de %2: %3</translation>
    </message>
    <message>
        <source>Making the logbook.</source>
        <translation>Creando el libro de registro.</translation>
    </message>
    <message>
        <source>There is no file %1. Nothing was made. Set up a department, or open another file.</source>
        <translation>No hay ningún archivo %1. No se ha creado nada. Preparar un servicio o abrir otro archivo.</translation>
    </message>
    <message>
        <source>This logbook has no rules or no people yet. Both are asked for now; what is in it stays as it is.</source>
        <translation>Este libro de registro todavía no tiene normas o no tiene personas. Ahora se piden ambas cosas; lo que contiene se queda como está.</translation>
    </message>
    <message>
        <source>Which logbook?</source>
        <translation>¿Qué libro de registro?</translation>
    </message>
    <message>
        <source>Making the demo, three months of an invented hospital.</source>
        <translation>Creando la demostración: tres meses de un hospital inventado.</translation>
    </message>
    <message>
        <source>The readiness logbook of a department&apos;s ventilators: which unit is ready for which patients, what keeps the others from it, and what to do next.</source>
        <translation>El registro de disponibilidad de los ventiladores de un servicio: qué ventilador está listo y para qué pacientes, qué les falta a los demás y qué hacer a continuación.</translation>
    </message>
    <message>
        <source>The recovery code is shown this once: after that it is nowhere. Everything else is kept.</source>
        <translation>El código de recuperación se muestra esta única vez: después no está en ningún sitio. Todo lo demás está guardado.</translation>
    </message>
    <message>
        <source>The unit that stands here is not enrolled yet.</source>
        <translation>El ventilador que figura aquí aún no está dado de alta.</translation>
    </message>
    <message>
        <source>This department is not set up yet, and nothing of it is kept.</source>
        <translation>Este servicio aún no está configurado y nada de ello está guardado.</translation>
    </message>
    <message>
        <source>Finish without a check</source>
        <translation>Terminar sin comprobación</translation>
    </message>
    <message>
        <source>The unit that stands here is not enrolled yet. Finish without it?</source>
        <translation>El ventilador que figura aquí aún no está dado de alta. ¿Terminar sin él?</translation>
    </message>
    <message>
        <source>Finish, it is not enrolled</source>
        <translation>Terminar, no se da de alta</translation>
    </message>
    <message>
        <source>Back to the unit</source>
        <translation>Volver al ventilador</translation>
    </message>
</context>
<context>
    <name>desktop::FitSheet</name>
    <message>
        <source>Swap: %1</source>
        <translation>Cambiar: %1</translation>
    </message>
    <message>
        <source>Fit: %1</source>
        <translation>Colocar: %1</translation>
    </message>
    <message>
        <source>Scan the part, or type what is on it. The rest is as proposed; change what is not so.</source>
        <translation>Escanear la pieza o escribir lo que pone en ella. El resto es una propuesta; cambiar lo que no sea así.</translation>
    </message>
    <message>
        <source>The same part again: %1</source>
        <translation>La misma pieza otra vez: %1</translation>
    </message>
    <message>
        <source>Why it was not kept</source>
        <translation>Por qué no se ha guardado</translation>
    </message>
    <message>
        <source>Back, keep nothing</source>
        <translation>Volver sin guardar</translation>
    </message>
    <message>
        <source>Proposed: %1, %2</source>
        <translation>Propuesta: %1, %2</translation>
    </message>
    <message>
        <source>%1 It is not known as: %2.</source>
        <translation>%1 No se conoce como: %2.</translation>
    </message>
    <message>
        <source>Read %1. Put the cursor where it belongs, and scan again.</source>
        <translation>Leído: %1. Poner el cursor en el campo que corresponda y escanear otra vez.</translation>
    </message>
    <message>
        <source>The old one is out, this one is in</source>
        <translation>Quitada la anterior, colocada esta</translation>
    </message>
    <message>
        <source>This one was fitted</source>
        <translation>Se ha colocado esta</translation>
    </message>
    <message>
        <source>Read %1. Take what is known of it, in place of what you typed?</source>
        <translation>Leído: %1. ¿Tomar lo que se sabe de esa pieza en lugar de lo escrito?</translation>
    </message>
    <message>
        <source>Take what is known of %1</source>
        <translation>Tomar lo que se sabe de %1</translation>
    </message>
    <message>
        <source>Keep what I typed</source>
        <translation>Conservar lo escrito</translation>
    </message>
    <message>
        <source>What stands against this part</source>
        <translation>Qué hay en contra de esta pieza</translation>
    </message>
</context>
<context>
    <name>desktop::FleetDesk</name>
    <message>
        <source>Reading the logbook.</source>
        <translation>Leyendo el libro de registro.</translation>
    </message>
    <message>
        <source>Find in the table</source>
        <translation>Buscar en la tabla</translation>
    </message>
    <message>
        <source>Find units by any word of their row</source>
        <translation>Buscar ventiladores por cualquier palabra de su fila</translation>
    </message>
    <message>
        <source>Muster …</source>
        <translation>Preparación …</translation>
    </message>
    <message>
        <source>Look ahead …</source>
        <translation>Previsión …</translation>
    </message>
    <message>
        <source>All</source>
        <translation>Todos</translation>
    </message>
    <message>
        <source>%1  %2</source>
        <translation>%1  %2</translation>
    </message>
    <message>
        <source>No unit of %1 is like that.</source>
        <translation>Ningún ventilador de %1 es así.</translation>
    </message>
    <message>
        <source>%1 of %2 units are shown.</source>
        <translation>Ventiladores que se muestran: %1 de %2.</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Enrol units …</source>
        <translation>Dar de alta …</translation>
    </message>
</context>
<context>
    <name>desktop::FleetListSheet</name>
    <message>
        <source>What the list would bring</source>
        <translation>Qué aportaría la lista</translation>
    </message>
    <message>
        <source>Line %1 is refused.</source>
        <translation>Línea %1: rechazada.</translation>
    </message>
    <message>
        <source>Line %1, unit %2, is refused.</source>
        <translation>Línea %1, ventilador %2: rechazada.</translation>
    </message>
    <message>
        <source>Column %1: %2</source>
        <translation>Columna %1: %2</translation>
    </message>
    <message>
        <source>The column %1 is not known and is passed over.</source>
        <translation>La columna %1 no se conoce y se pasa por alto.</translation>
    </message>
    <message>
        <source>Line %1: %2</source>
        <translation>Línea %1: %2</translation>
    </message>
    <message>
        <source>Back, enrol none</source>
        <translation>Volver sin dar de alta</translation>
    </message>
    <message>
        <source>Units that can be enrolled: %1. Lines refused: %2. Nothing is written yet.</source>
        <translation>Ventiladores que se pueden dar de alta: %1. Líneas rechazadas: %2. Todavía no se ha escrito nada.</translation>
    </message>
    <message>
        <source>Enrol what is not refused</source>
        <translation>Dar de alta lo no rechazado</translation>
    </message>
    <message>
        <source>None of them names a patient: look again</source>
        <translation>Ninguno nombra a un paciente: volver a mirar</translation>
    </message>
</context>
<context>
    <name>desktop::FleetModel</name>
    <message>
        <source>Unit</source>
        <translation>Ventilador</translation>
    </message>
    <message>
        <source>Asset</source>
        <translation>Inventario</translation>
    </message>
    <message>
        <source>Model</source>
        <translation>Modelo</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Lugar</translation>
    </message>
    <message>
        <source>Group</source>
        <translation>Grupo</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Estado</translation>
    </message>
    <message>
        <source>What is missing</source>
        <translation>Qué falta</translation>
    </message>
    <message>
        <source>Ready until</source>
        <translation>Listo hasta</translation>
    </message>
</context>
<context>
    <name>desktop::FleetOverview</name>
    <message>
        <source>What is in doubt</source>
        <translation>Qué está en duda</translation>
    </message>
    <message>
        <source>Ready against par</source>
        <translation>Listos frente a la dotación</translation>
    </message>
    <message>
        <source>Next to lapse</source>
        <translation>Próximos en vencer</translation>
    </message>
    <message>
        <source>Soonest ready</source>
        <translation>Los primeros listos</translation>
    </message>
    <message>
        <source>As of %1, read just now.</source>
        <translation>A las %1, leído ahora mismo.</translation>
    </message>
    <message>
        <source>As of %1, read %2 ago.</source>
        <translation>A las %1, leído hace %2.</translation>
    </message>
    <message>
        <source>As of %1. The logbook could not be read for %2: what was entered since is not shown.</source>
        <translation>A las %1. El libro de registro no se puede leer desde hace %2: lo anotado después no aparece.</translation>
    </message>
    <message>
        <source>and %1 more</source>
        <translation>y %1 más</translation>
    </message>
    <message>
        <source>%1, now</source>
        <translation>%1, ahora</translation>
    </message>
    <message>
        <source>%1, in %2</source>
        <translation>%1, en %2</translation>
    </message>
    <message>
        <source>No unit that is ready stops being so by itself.</source>
        <translation>Ningún ventilador listo deja de estarlo por sí solo.</translation>
    </message>
    <message>
        <source>Working it out: %1 units to go.</source>
        <translation>Calculando; ventiladores que quedan: %1.</translation>
    </message>
    <message>
        <source>Working it out for %1 more units.</source>
        <translation>Calculando para otros ventiladores: %1.</translation>
    </message>
    <message>
        <source>There is no unit that could be made ready.</source>
        <translation>No hay ningún ventilador que se pueda dejar listo.</translation>
    </message>
    <message>
        <source>No unit that is not ready can be made so at the bedside.</source>
        <translation>Ningún ventilador no listo se puede dejar listo a pie de cama.</translation>
    </message>
</context>
<context>
    <name>desktop::FleetView</name>
    <message>
        <source>As of %1. The logbook could not be read for %2: what was entered since is not shown.</source>
        <translation>A las %1. El libro de registro no se puede leer desde hace %2: lo anotado después no aparece.</translation>
    </message>
    <message>
        <source>This computer&apos;s clock says %1. Entries with a later time: %2, the first of them %3. One of the clocks is wrong; until it is put right, units with such entries are not shown as ready.</source>
        <translation>El reloj de este ordenador marca %1. Anotaciones con una hora posterior: %2, la primera es %3. Uno de los relojes está mal; hasta que se corrija, los ventiladores con esas anotaciones no se muestran como listos.</translation>
    </message>
</context>
<context>
    <name>desktop::ForecastSheet</name>
    <message>
        <source>Answer</source>
        <translation>Respuesta</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Cerrar</translation>
    </message>
    <message>
        <source>%1: fewer</source>
        <translation>%1: menos</translation>
    </message>
    <message>
        <source>%1: more</source>
        <translation>%1: más</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Working it out.</source>
        <translation>Calculando.</translation>
    </message>
</context>
<context>
    <name>desktop::HeadBar</name>
    <message>
        <source>Scan, or type a serial or asset number</source>
        <translation>Escanear, o escribir un n.º de serie o de inventario</translation>
    </message>
    <message>
        <source>Serial or asset number</source>
        <translation>Número de serie o de inventario</translation>
    </message>
    <message>
        <source>Serial</source>
        <translation>N.º de serie</translation>
    </message>
    <message>
        <source>Help</source>
        <translation>Ayuda</translation>
    </message>
    <message>
        <source>Sign in</source>
        <translation>Iniciar sesión</translation>
    </message>
    <message>
        <source>%1 – lock</source>
        <translation>%1 – bloquear</translation>
    </message>
    <message>
        <source>Lock</source>
        <translation>Bloquear</translation>
    </message>
</context>
<context>
    <name>desktop::HelpSheet</name>
    <message>
        <source>Keys, settings, about</source>
        <translation>Teclas, ajustes, acerca de</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Text size and theme, for now</source>
        <translation>Tamaño del texto y aspecto, por ahora</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>Text size %1 %</source>
        <translation>Tamaño del texto: %1 %</translation>
    </message>
    <message>
        <source>Dark</source>
        <translation>Oscuro</translation>
    </message>
    <message>
        <source>Light</source>
        <translation>Claro</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Teclas</translation>
    </message>
    <message>
        <source>Tab, Shift+Tab</source>
        <translation>Tab, Mayús+Tab</translation>
    </message>
    <message>
        <source>To the next or the one before</source>
        <translation>Ir al siguiente o al anterior</translation>
    </message>
    <message>
        <source>Space</source>
        <translation>Espacio</translation>
    </message>
    <message>
        <source>Press the button that is marked</source>
        <translation>Pulsar el botón marcado</translation>
    </message>
    <message>
        <source>Esc</source>
        <translation>Esc</translation>
    </message>
    <message>
        <source>Back, keep nothing</source>
        <translation>Volver sin guardar</translation>
    </message>
    <message>
        <source>About</source>
        <translation>Acerca de</translation>
    </message>
    <message>
        <source>Airmuster %1, free software under the GPL, version 3 or later.</source>
        <translation>Airmuster %1, software libre con la licencia GPL, versión 3 o posterior.</translation>
    </message>
    <message>
        <source>Everywhere</source>
        <translation>En todas partes</translation>
    </message>
    <message>
        <source>At the Bedside desk</source>
        <translation>En la vista de cabecera</translation>
    </message>
    <message>
        <source>At the Fleet desk</source>
        <translation>En la vista de equipos</translation>
    </message>
    <message>
        <source>In every list, form and question</source>
        <translation>En toda lista, formulario y pregunta</translation>
    </message>
    <message>
        <source>Alt and a letter</source>
        <translation>Alt y una letra</translation>
    </message>
    <message>
        <source>The button or field in which that letter is underlined</source>
        <translation>El botón o el campo en que esa letra está subrayada</translation>
    </message>
    <message>
        <source>Arrows, Enter</source>
        <translation>Flechas, Intro</translation>
    </message>
    <message>
        <source>Along a list or a table, and open what is marked</source>
        <translation>Recorrer una lista o una tabla y abrir lo marcado</translation>
    </message>
    <message>
        <source>Logbook: %1, in the folder %2</source>
        <translation>Libro de registro: %1, en la carpeta %2</translation>
    </message>
</context>
<context>
    <name>desktop::HistoryPanel</name>
    <message>
        <source>Entries on this unit, latest first</source>
        <translation>Anotaciones de este ventilador, primero las más recientes</translation>
    </message>
    <message>
        <source>Show: %1</source>
        <translation>Mostrar: %1</translation>
    </message>
    <message>
        <source>All</source>
        <translation>Todas</translation>
    </message>
    <message>
        <source>Checks</source>
        <translation>Comprobaciones</translation>
    </message>
    <message>
        <source>Set-up</source>
        <translation>Montaje</translation>
    </message>
    <message>
        <source>Use</source>
        <translation>Uso</translation>
    </message>
    <message>
        <source>Trouble</source>
        <translation>Incidencias</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notas</translation>
    </message>
    <message>
        <source>Look back …</source>
        <translation>Mirar atrás …</translation>
    </message>
    <message>
        <source>%1 older entries are not shown here. Look back, or export them.</source>
        <translation>Anotaciones anteriores que no se muestran aquí: %1. Mirar atrás o exportarlas.</translation>
    </message>
    <message>
        <source>The entries on this unit could not be read now: not all are shown.</source>
        <translation>Las anotaciones de este ventilador no se han podido leer ahora: no se muestran todas.</translation>
    </message>
</context>
<context>
    <name>desktop::HoldBanner</name>
    <message>
        <source>%1 since %2. What to do, and what not: press here</source>
        <translation>%1 desde el %2. Qué hacer y qué no hacer: pulsar aquí</translation>
    </message>
</context>
<context>
    <name>desktop::HoldView</name>
    <message>
        <source>Since %1, entered by %2.</source>
        <translation>Desde el %1, anotado por %2.</translation>
    </message>
    <message>
        <source>&amp;File for the sheet, to print or to hand on</source>
        <translation>&amp;Archivo para la hoja, para imprimirla o entregarla</translation>
    </message>
    <message>
        <source>File for the sheet</source>
        <translation>Archivo para la hoja</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Save it as a PDF</source>
        <translation>Guardar como PDF</translation>
    </message>
    <message>
        <source>Print it on %1</source>
        <translation>Imprimir en %1</translation>
    </message>
    <message>
        <source>Nothing was saved: give the file a name.</source>
        <translation>No se ha guardado nada: dar un nombre al archivo.</translation>
    </message>
    <message>
        <source>Nothing was saved: there is a file of that name. Take another.</source>
        <translation>No se ha guardado nada: ya hay un archivo con ese nombre. Elegir otro.</translation>
    </message>
    <message>
        <source>Saved as %1.</source>
        <translation>Guardado como %1.</translation>
    </message>
    <message>
        <source>Nothing was saved: %1 cannot be written. Take another folder.</source>
        <translation>No se ha guardado nada: no se puede escribir %1. Elegir otra carpeta.</translation>
    </message>
    <message>
        <source>Sent to %1.</source>
        <translation>Enviado a %1.</translation>
    </message>
    <message>
        <source>%1 took nothing. Save the sheet as a PDF instead.</source>
        <translation>%1 no ha aceptado nada. Guardar la hoja como PDF.</translation>
    </message>
    <message>
        <source>Print it: no printer yet</source>
        <translation>Imprimirla: aún sin impresora</translation>
    </message>
    <message>
        <source>Reason given: %1</source>
        <translation>Motivo indicado: %1</translation>
    </message>
</context>
<context>
    <name>desktop::HorizonSheet</name>
    <message>
        <source>Look ahead</source>
        <translation>Previsión</translation>
    </message>
    <message>
        <source>%1 h</source>
        <translation>%1 h</translation>
    </message>
    <message>
        <source>How far</source>
        <translation>Hasta cuándo</translation>
    </message>
</context>
<context>
    <name>desktop::Keeping</name>
    <message>
        <source>%1, since %2:</source>
        <translation>%1, desde el %2:</translation>
    </message>
    <message>
        <source>This entry may change what has to stay as it is.</source>
        <translation>Esta anotación puede cambiar lo que debe quedar como está.</translation>
    </message>
    <message>
        <source>It was done: keep the entry</source>
        <translation>Se ha hecho: guardar la anotación</translation>
    </message>
    <message>
        <source>Leave the unit as it is</source>
        <translation>Dejar el ventilador como está</translation>
    </message>
    <message>
        <source>Keep it all the same</source>
        <translation>Guardar de todos modos</translation>
    </message>
    <message>
        <source>Do not keep it</source>
        <translation>No guardarlo</translation>
    </message>
    <message>
        <source>Unit %1.</source>
        <translation>Ventilador %1.</translation>
    </message>
    <message>
        <source>Nothing was kept: whoever pressed it is not signed in any more.</source>
        <translation>No se ha guardado nada: quien lo pulsó ya no tiene la sesión abierta.</translation>
    </message>
    <message>
        <source>Yes, keep it</source>
        <translation>Sí, guardar</translation>
    </message>
    <message>
        <source>No, look again</source>
        <translation>No, mirar otra vez</translation>
    </message>
    <message>
        <source>It was over by then: keep it</source>
        <translation>Ya había terminado: guardar</translation>
    </message>
</context>
<context>
    <name>desktop::Keypad</name>
    <message>
        <source>Colon</source>
        <translation>Dos puntos</translation>
    </message>
    <message>
        <source>Decimal point</source>
        <translation>Coma decimal</translation>
    </message>
    <message>
        <source>Minus</source>
        <translation>Signo menos</translation>
    </message>
    <message>
        <source>Delete</source>
        <translation>Borrar</translation>
    </message>
    <message>
        <source>Clear</source>
        <translation>Vaciar</translation>
    </message>
    <message>
        <source>Hyphen</source>
        <translation>Guion</translation>
    </message>
    <message>
        <source>Blank</source>
        <translation>Espacio</translation>
    </message>
</context>
<context>
    <name>desktop::KnownModels</name>
    <message>
        <source>Model: %1</source>
        <translation>Modelo: %1</translation>
    </message>
</context>
<context>
    <name>desktop::KnownPartSheet</name>
    <message>
        <source>What is known of this part</source>
        <translation>Qué se sabe de esta pieza</translation>
    </message>
    <message>
        <source>No notice concerns it.</source>
        <translation>Ningún aviso la afecta.</translation>
    </message>
    <message>
        <source>To fit it, press Fit or Swap at its position in Set-up, and scan it there.</source>
        <translation>Para colocarla, pulsar «Colocar» o «Cambiar» en su posición, en Montaje, y escanearla allí.</translation>
    </message>
    <message>
        <source>To fit one, open the unit first, then scan the part.</source>
        <translation>Para colocar una, abrir primero el ventilador y escanear después la pieza.</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>By the log none is fitted in a unit now.</source>
        <translation>Según el registro, ahora no hay ninguna colocada en un ventilador.</translation>
    </message>
    <message>
        <source>By the log fitted now in:</source>
        <translation>Según el registro, colocada ahora en:</translation>
    </message>
    <message numerus="yes">
        <source>and %n more</source>
        <translation>
            <numerusform>y %n más</numerusform>
            <numerusform>y %n más</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>desktop::LookBackSheet</name>
    <message>
        <source>Look back at unit %1</source>
        <translation>Mirada atrás al ventilador %1</translation>
    </message>
    <message>
        <source>What could be known then, and what is known now</source>
        <translation>Lo que se podía saber entonces y lo que se sabe ahora</translation>
    </message>
    <message>
        <source>Back to the present</source>
        <translation>Volver al presente</translation>
    </message>
    <message>
        <source>&amp;When? As in 02:14, or 2026-11-14 02:14; in the hour that comes twice also first or second.</source>
        <translation>¿&amp;Cuándo? Como 02:14 o 2026-11-14 02:14; en la hora que se repite, también primera o segunda.</translation>
    </message>
    <message>
        <source>Time to look back to</source>
        <translation>Hora hasta la que mirar atrás</translation>
    </message>
    <message>
        <source>Look back</source>
        <translation>Mirar atrás</translation>
    </message>
    <message>
        <source>THE PAST: %1</source>
        <translation>EL PASADO: %1</translation>
    </message>
    <message>
        <source>One moment: the entries up to then are being read.</source>
        <translation>Un momento: se están leyendo las anotaciones hasta entonces.</translation>
    </message>
</context>
<context>
    <name>desktop::ManagerPage</name>
    <message>
        <source>The first manager</source>
        <translation>Quién gestiona el libro</translation>
    </message>
    <message>
        <source>Go on</source>
        <translation>Seguir</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nombre</translation>
    </message>
    <message>
        <source>as it is to stand in the log</source>
        <translation>como debe constar en el registro</translation>
    </message>
    <message>
        <source>Short name, for signing in</source>
        <translation>Nombre corto, para iniciar sesión</translation>
    </message>
    <message>
        <source>PIN, six figures or more</source>
        <translation>PIN, seis cifras o más</translation>
    </message>
    <message>
        <source>The same PIN again</source>
        <translation>El mismo PIN otra vez</translation>
    </message>
    <message>
        <source>The manager has no name yet, or one of more than 64 letters. Type it.</source>
        <translation>Todavía falta el nombre de quien gestiona el libro, o tiene más de 64 letras. Escribirlo.</translation>
    </message>
    <message>
        <source>There is no short name yet, or one of more than 64 letters. Type it.</source>
        <translation>Todavía falta el nombre corto, o tiene más de 64 letras. Escribirlo.</translation>
    </message>
    <message>
        <source>The two PINs are not the same. Type the PIN twice again.</source>
        <translation>Los dos PIN no son iguales. Escribir de nuevo el PIN dos veces.</translation>
    </message>
</context>
<context>
    <name>desktop::MeasureSheet</name>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Type it again</source>
        <translation>Escribirlo de nuevo</translation>
    </message>
    <message>
        <source>Value %1 of %2</source>
        <translation>Valor %1 de %2</translation>
    </message>
    <message>
        <source>may be left out</source>
        <translation>se puede omitir</translation>
    </message>
    <message>
        <source>In %1</source>
        <translation>En %1</translation>
    </message>
    <message>
        <source>Keep it as failed</source>
        <translation>Guardar como fallida</translation>
    </message>
    <message>
        <source>Keep it all the same</source>
        <translation>Guardar de todos modos</translation>
    </message>
    <message>
        <source>Next: %1</source>
        <translation>Siguiente: %1</translation>
    </message>
    <message>
        <source>Keep it; it does not count</source>
        <translation>Guardar; no cuenta</translation>
    </message>
    <message>
        <source>%1 is wanted. Type it first.</source>
        <translation>%1: hace falta un valor. Escribirlo primero.</translation>
    </message>
    <message>
        <source>%1 is no number. Type it again.</source>
        <translation>«%1» no es un número. Escribirlo de nuevo.</translation>
    </message>
    <message>
        <source>Another unit</source>
        <translation>Otra unidad</translation>
    </message>
</context>
<context>
    <name>desktop::MusterSheet</name>
    <message>
        <source>Muster</source>
        <translation>Preparación</translation>
    </message>
    <message>
        <source>Group</source>
        <translation>Grupo</translation>
    </message>
    <message>
        <source>Ready units</source>
        <translation>Ventiladores listos</translation>
    </message>
    <message>
        <source>People</source>
        <translation>Personas</translation>
    </message>
</context>
<context>
    <name>desktop::NotSoSheet</name>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>It was not finished</source>
        <translation>No se terminó</translation>
    </message>
    <message>
        <source>It failed</source>
        <translation>Resultó fallida</translation>
    </message>
    <message>
        <source>Keep it; it does not count</source>
        <translation>Guardar; no cuenta</translation>
    </message>
    <message>
        <source>A failure stands until the check passes. A check that was not finished does not count, and what stood before stands.</source>
        <translation>Un fallo sigue en pie hasta que se supera la comprobación. Una comprobación sin terminar no cuenta, y sigue en pie lo de antes.</translation>
    </message>
    <message>
        <source>&amp;What was seen? It may stay empty. It is kept as a note beside the check.</source>
        <translation>¿&amp;Qué se ha visto? Puede quedar vacío. Se guarda como nota junto a la comprobación.</translation>
    </message>
    <message>
        <source>What was seen</source>
        <translation>Qué se ha visto</translation>
    </message>
    <message>
        <source>What was not so? Press what did not hold. The rest is kept as so.</source>
        <translation>¿Qué no fue así? Pulsar lo que no se cumplió. Lo demás se guarda como cumplido.</translation>
    </message>
</context>
<context>
    <name>desktop::PartFields</name>
    <message>
        <source>Not said: %1. The policy edition looks for it.</source>
        <translation>Sin decir: %1. La edición de las normas lo busca.</translation>
    </message>
    <message>
        <source>Nothing is known of this model here. Say what it is like: what the one before was like is not taken for it.</source>
        <translation>De este modelo no se sabe nada aquí. Decir cómo es: lo que era el anterior no se toma para él.</translation>
    </message>
    <message>
        <source>&amp;Serial, if it has one</source>
        <translation>Número de &amp;serie, si tiene</translation>
    </message>
    <message>
        <source>&amp;Lot</source>
        <translation>&amp;Lote</translation>
    </message>
    <message>
        <source>&amp;Expires, as 2027-05-31 or 270531</source>
        <translation>&amp;Caducidad, como 2027-05-31 o 270531</translation>
    </message>
    <message>
        <source>&amp;Model</source>
        <translation>&amp;Modelo</translation>
    </message>
    <message>
        <source>For which patient groups?</source>
        <translation>¿Para qué grupos de pacientes?</translation>
    </message>
    <message>
        <source>How often is it used?</source>
        <translation>¿Cuántas veces se usa?</translation>
    </message>
    <message>
        <source>Once</source>
        <translation>Una vez</translation>
    </message>
    <message>
        <source>For one patient</source>
        <translation>Para un paciente</translation>
    </message>
    <message>
        <source>Again, after reprocessing</source>
        <translation>Otra vez, tras reprocesarla</translation>
    </message>
    <message>
        <source>For good</source>
        <translation>Permanente</translation>
    </message>
    <message>
        <source>%1: %2, or what else it is</source>
        <translation>%1: %2, u otra</translation>
    </message>
    <message>
        <source>%1 is no day. Write it as 2027-05-31 or 270531.</source>
        <translation>«%1» no es un día. Escribirlo como 2027-05-31 o 270531.</translation>
    </message>
    <message>
        <source>First: model, serial number or lot</source>
        <translation>Primero: modelo, número de serie o lote</translation>
    </message>
</context>
<context>
    <name>desktop::PersonList</name>
    <message>
        <source>Press a &amp;name, type some letters of it, or scan the badge</source>
        <translation>Pulsar un &amp;nombre, escribir algunas de sus letras o escanear la tarjeta</translation>
    </message>
    <message>
        <source>Letters of the name</source>
        <translation>Letras del nombre</translation>
    </message>
    <message>
        <source>Read %1, which is nobody&apos;s badge.</source>
        <translation>Leído: %1. No es la tarjeta de nadie.</translation>
    </message>
    <message>
        <source>%1 has a part in it already. Somebody else is wanted.</source>
        <translation>%1 ya figura en ello. Hace falta otra persona.</translation>
    </message>
</context>
<context>
    <name>desktop::PinSheet</name>
    <message>
        <source>Your PIN once more</source>
        <translation>El PIN una vez más</translation>
    </message>
    <message>
        <source>%1, enter your PIN.</source>
        <translation>PIN de %1:</translation>
    </message>
    <message>
        <source>PIN</source>
        <translation>PIN</translation>
    </message>
    <message>
        <source>This is kept only by whoever shows who they are once more, since a desk may have been left as it was.</source>
        <translation>Esto solo lo guarda quien vuelve a mostrar quién es, porque puede que alguien dejara el puesto tal como estaba.</translation>
    </message>
    <message>
        <source>Why it was not kept</source>
        <translation>Por qué no se ha guardado</translation>
    </message>
    <message>
        <source>Back, keep nothing</source>
        <translation>Volver sin guardar</translation>
    </message>
    <message>
        <source>It is me: keep it</source>
        <translation>Soy yo: guardar</translation>
    </message>
    <message>
        <source>Type the PIN first.</source>
        <translation>Escribir antes el PIN.</translation>
    </message>
</context>
<context>
    <name>desktop::QuestionSheet</name>
    <message>
        <source>A question first</source>
        <translation>Antes, una pregunta</translation>
    </message>
</context>
<context>
    <name>desktop::ReadyList</name>
    <message>
        <source>Scan a unit, or type its number: an emergency start can be entered for any unit.</source>
        <translation>Escanear una unidad o escribir su número: se puede anotar un inicio de urgencia de cualquier unidad.</translation>
    </message>
    <message>
        <source>Units that are ready</source>
        <translation>Ventiladores listos</translation>
    </message>
    <message>
        <source>%1 ready by record. Look at the unit before connecting.</source>
        <translation>Listos según el registro: %1. Comprobar el ventilador antes de conectarlo.</translation>
    </message>
    <message>
        <source>Open unit %1</source>
        <translation>Abrir el ventilador %1</translation>
    </message>
    <message>
        <source>Emergency start</source>
        <translation>Inicio de emergencia</translation>
    </message>
    <message>
        <source>Emergency start of unit %1</source>
        <translation>Inicio de emergencia del ventilador %1</translation>
    </message>
    <message>
        <source>%1, until %2</source>
        <translation>%1, hasta: %2</translation>
    </message>
    <message>
        <source>No unit is enrolled in this logbook yet. Units are enrolled here, or later on the Fleet desk: typed, scanned, or from a list.</source>
        <translation>En este libro de registro no hay aún ningún ventilador dado de alta. Se dan de alta aquí, o más tarde en la vista de equipos: escritos, escaneados o desde una lista.</translation>
    </message>
    <message>
        <source>Enrol units</source>
        <translation>Dar de alta ventiladores</translation>
    </message>
    <message>
        <source>Not recorded yet …</source>
        <translation>Aún sin anotar …</translation>
    </message>
</context>
<context>
    <name>desktop::RecordSheet</name>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Strike it through …</source>
        <translation>Tachar …</translation>
    </message>
    <message>
        <source>It was another unit: move it …</source>
        <translation>Era otro ventilador: trasladar …</translation>
    </message>
    <message>
        <source>Strike all %1 entries of this session through …</source>
        <translation>Tachar las %1 anotaciones de esta sesión …</translation>
    </message>
    <message>
        <source>It was another unit: move all %1 entries of this session …</source>
        <translation>Era otro ventilador: trasladar las %1 anotaciones de esta sesión …</translation>
    </message>
</context>
<context>
    <name>desktop::RulebookPage</name>
    <message>
        <source>The rules</source>
        <translation>Las normas</translation>
    </message>
    <message>
        <source>Begin the logbook</source>
        <translation>Empezar el libro de registro</translation>
    </message>
    <message>
        <source>Which checks a unit needs, and for how long they hold. Those that come with the program are examples that nobody has approved; a department puts its own in force, now or later.</source>
        <translation>Qué comprobaciones necesita un ventilador y por cuánto tiempo valen. Las normas que vienen con el programa son ejemplos que nadie ha aprobado; un servicio pone en vigor las suyas, ahora o más tarde.</translation>
    </message>
    <message>
        <source>Our own rulebook …</source>
        <translation>Un archivo de normas propio …</translation>
    </message>
    <message>
        <source>A file that your department has written</source>
        <translation>Un archivo que ha escrito el servicio</translation>
    </message>
    <message>
        <source>What to think about in this rulebook</source>
        <translation>Qué valorar en este archivo de normas</translation>
    </message>
    <message>
        <source>%1 cannot be used</source>
        <translation>%1 no se puede usar</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>To think about; it can be used as it is:
</source>
        <translation>Para valorar; se puede usar como está:
</translation>
    </message>
    <message>
        <source>These faults have to be put right first:
</source>
        <translation>Antes hay que corregir estos errores:
</translation>
    </message>
    <message>
        <source>No rulebook is chosen yet. Press one.</source>
        <translation>Todavía no se ha elegido ningún archivo de normas. Pulsar uno.</translation>
    </message>
    <message>
        <source>This rulebook cannot be used. Put its faults right, or choose another.</source>
        <translation>Este archivo de normas no se puede usar. Corregir sus errores o elegir otro.</translation>
    </message>
</context>
<context>
    <name>desktop::SecondSheet</name>
    <message>
        <source>A second person verifies it</source>
        <translation>Lo verifica una segunda persona</translation>
    </message>
    <message>
        <source>PIN of the second person</source>
        <translation>PIN de la segunda persona</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>I have verified it</source>
        <translation>Lo he verificado</translation>
    </message>
    <message>
        <source>%1, enter your PIN.</source>
        <translation>PIN de %1:</translation>
    </message>
</context>
<context>
    <name>desktop::SetupForms</name>
    <message>
        <source>Take out: %1</source>
        <translation>Quitar: %1</translation>
    </message>
    <message>
        <source>The position is left empty.</source>
        <translation>La posición queda vacía.</translation>
    </message>
    <message>
        <source>It was taken out</source>
        <translation>Se ha quitado</translation>
    </message>
    <message>
        <source>Reprocessing: %1</source>
        <translation>Reprocesar: %1</translation>
    </message>
    <message>
        <source>Wanted: at least %1.</source>
        <translation>Se pide como mínimo: %1.</translation>
    </message>
    <message>
        <source>What was done?</source>
        <translation>¿Qué se hizo?</translation>
    </message>
    <message>
        <source>Taken out and sent away</source>
        <translation>Se quitó y se envió</translation>
    </message>
    <message>
        <source>the position is left empty</source>
        <translation>la posición queda vacía</translation>
    </message>
    <message>
        <source>Reprocessed: %1</source>
        <translation>Se reprocesó: %1</translation>
    </message>
    <message>
        <source>&amp;Load, if it was reprocessed in one</source>
        <translation>&amp;Carga, si se reprocesó en una</translation>
    </message>
    <message>
        <source>It was taken out and sent away</source>
        <translation>Se ha quitado y enviado</translation>
    </message>
    <message>
        <source>It was reprocessed</source>
        <translation>Se ha reprocesado</translation>
    </message>
</context>
<context>
    <name>desktop::SetupPanel</name>
    <message>
        <source>Where does it go?</source>
        <translation>¿Dónde va?</translation>
    </message>
    <message>
        <source>Back, keep nothing</source>
        <translation>Volver sin guardar</translation>
    </message>
    <message>
        <source>%1 stands in this unit already.</source>
        <translation>%1 ya está en este ventilador.</translation>
    </message>
</context>
<context>
    <name>desktop::SetupRow</name>
    <message>
        <source>since %1</source>
        <translation>desde las %1</translation>
    </message>
    <message>
        <source>expires %1</source>
        <translation>caduca el %1</translation>
    </message>
    <message>
        <source>for %1</source>
        <translation>para %1</translation>
    </message>
    <message>
        <source>%1, of an earlier edition</source>
        <translation>%1, de una edición anterior</translation>
    </message>
    <message>
        <source>Empty, and wanted</source>
        <translation>Nada colocado; hace falta</translation>
    </message>
    <message>
        <source>Empty</source>
        <translation>Nada colocado</translation>
    </message>
    <message>
        <source>Fitted, no serial or lot stated</source>
        <translation>Hay una pieza, sin número de serie ni lote</translation>
    </message>
    <message>
        <source>Swap</source>
        <translation>Cambiar</translation>
    </message>
    <message>
        <source>Fit</source>
        <translation>Colocar</translation>
    </message>
    <message>
        <source>Take out</source>
        <translation>Quitar</translation>
    </message>
    <message>
        <source>Reprocessing</source>
        <translation>Reprocesar</translation>
    </message>
    <message>
        <source>Put back: %1</source>
        <translation>Volver a colocar: %1</translation>
    </message>
</context>
<context>
    <name>desktop::Sheet</name>
    <message>
        <source>What was told last</source>
        <translation>Último aviso del programa</translation>
    </message>
    <message>
        <source>Being kept …</source>
        <translation>Se está guardando …</translation>
    </message>
</context>
<context>
    <name>desktop::Shortcuts</name>
    <message>
        <source>To the field for codes</source>
        <translation>Ir al campo de códigos</translation>
    </message>
    <message>
        <source>Bedside desk</source>
        <translation>Vista de cabecera</translation>
    </message>
    <message>
        <source>Fleet desk</source>
        <translation>Vista de equipos</translation>
    </message>
    <message>
        <source>Way to ready</source>
        <translation>Puesta a punto</translation>
    </message>
    <message>
        <source>Set-up</source>
        <translation>Montaje</translation>
    </message>
    <message>
        <source>Other entries</source>
        <translation>Otras anotaciones</translation>
    </message>
    <message>
        <source>History</source>
        <translation>Historial</translation>
    </message>
    <message>
        <source>Close the unit, to the list of ready units</source>
        <translation>Cerrar el ventilador y volver a la lista de los listos</translation>
    </message>
    <message>
        <source>Sign in, or lock</source>
        <translation>Iniciar sesión o bloquear</translation>
    </message>
    <message>
        <source>Keys, settings, about</source>
        <translation>Teclas, ajustes, acerca de</translation>
    </message>
    <message>
        <source>The next step is done, as its first button says</source>
        <translation>Paso siguiente: hecho, como dice su primer botón</translation>
    </message>
    <message>
        <source>The next step: not so</source>
        <translation>Paso siguiente: no fue así</translation>
    </message>
    <message>
        <source>The next step: failed</source>
        <translation>Paso siguiente: fallida</translation>
    </message>
    <message>
        <source>Find units in the table</source>
        <translation>Buscar ventiladores en la tabla</translation>
    </message>
    <message>
        <source>To the table; Enter opens the unit that is marked</source>
        <translation>Ir a la tabla; Intro abre el ventilador marcado</translation>
    </message>
    <message>
        <source>Sort the table by the next column</source>
        <translation>Ordenar la tabla por la columna siguiente</translation>
    </message>
    <message>
        <source>Sort it the other way round</source>
        <translation>Ordenarla en sentido contrario</translation>
    </message>
    <message>
        <source>Muster</source>
        <translation>Preparación</translation>
    </message>
    <message>
        <source>Look ahead</source>
        <translation>Previsión</translation>
    </message>
    <message>
        <source>The entries that wait for your name</source>
        <translation>Las anotaciones que esperan la confirmación propia</translation>
    </message>
    <message>
        <source>To when it was and who did it</source>
        <translation>A cuándo fue y quién lo hizo</translation>
    </message>
    <message>
        <source>To the groups, what lapses and what is soonest ready</source>
        <translation>A los grupos, lo que vence y lo que antes estará listo</translation>
    </message>
    <message>
        <source>Enrol units</source>
        <translation>Dar de alta ventiladores</translation>
    </message>
</context>
<context>
    <name>desktop::SignInSheet</name>
    <message>
        <source>Sign in</source>
        <translation>Iniciar sesión</translation>
    </message>
    <message>
        <source>Back, keep nothing</source>
        <translation>Volver sin guardar</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Keep it under the name of %1</source>
        <translation>Guardar a nombre de %1</translation>
    </message>
    <message>
        <source>&amp;PIN</source>
        <translation>&amp;PIN</translation>
    </message>
    <message>
        <source>PIN</source>
        <translation>PIN</translation>
    </message>
    <message>
        <source>Type the PIN first.</source>
        <translation>Escribir antes el PIN.</translation>
    </message>
    <message>
        <source>&amp;Who: scan your badge, or type your short name</source>
        <translation>&amp;Quién: escanear la tarjeta o escribir el nombre corto</translation>
    </message>
    <message>
        <source>Short name or badge</source>
        <translation>Nombre corto o tarjeta</translation>
    </message>
    <message>
        <source>Nothing was tried. Say who it is first: scan the badge, or type the short name.</source>
        <translation>No se ha intentado nada. Indicar primero quién es: escanear la tarjeta o escribir el nombre corto.</translation>
    </message>
    <message>
        <source>No PIN is needed: one press keeps it</source>
        <translation>No hace falta PIN: se guarda al pulsar un nombre</translation>
    </message>
    <message>
        <source>Press a name and it is kept now; nothing else is waited for. Whoever it is confirms it with their PIN when there is time, or says that it was somebody else.</source>
        <translation>Al pulsar un nombre queda guardado ya; no se espera nada más. Esa persona lo confirma con su PIN cuando haya tiempo, o dice que fue otra persona.</translation>
    </message>
    <message>
        <source>Or, if there is time, sign in now:</source>
        <translation>O, si hay tiempo, iniciar sesión ahora:</translation>
    </message>
    <message>
        <source>%1 That is nobody&apos;s badge. Scan your badge, or type your short name.</source>
        <translation>%1 No es la tarjeta de nadie. Escanear la tarjeta propia o escribir el nombre corto.</translation>
    </message>
    <message>
        <source>Read %1, which is nobody&apos;s badge here. Type your short name instead; a manager can say whose badge it is.</source>
        <translation>Leído: %1. Aquí no es la tarjeta de nadie. Escribir en su lugar el nombre corto; quien gestiona el libro puede indicar de quién es la tarjeta.</translation>
    </message>
    <message>
        <source>Why nobody was signed in</source>
        <translation>Por qué no se ha iniciado sesión</translation>
    </message>
    <message>
        <source>What was read is nobody&apos;s badge here. It is not shown, since it may be a PIN that was typed very fast: type it once more, more slowly.</source>
        <translation>Lo leído no es aquí la tarjeta de nadie. No se muestra, porque puede ser un PIN escrito muy deprisa: escribirlo otra vez, más despacio.</translation>
    </message>
</context>
<context>
    <name>desktop::StepCard</name>
    <message>
        <source>The next step</source>
        <translation>El paso siguiente</translation>
    </message>
    <message>
        <source>It is taken out: %1</source>
        <translation>Se ha quitado: %1</translation>
    </message>
    <message>
        <source>Done: %1, %2</source>
        <translation>Hecho: %1, %2</translation>
    </message>
    <message>
        <source>%1 is selected on the unit</source>
        <translation>Seleccionado en el ventilador: %1</translation>
    </message>
    <message>
        <source>It is switched on</source>
        <translation>Está encendido</translation>
    </message>
    <message>
        <source>It is switched off</source>
        <translation>Está apagado</translation>
    </message>
    <message>
        <source>Select the patient group first.</source>
        <translation>Seleccionar primero el grupo de pacientes.</translation>
    </message>
    <message>
        <source>Passed, with values</source>
        <translation>Superada, con valores</translation>
    </message>
    <message>
        <source>Not so</source>
        <translation>No fue así</translation>
    </message>
    <message>
        <source>Put back: %1</source>
        <translation>Volver a colocar: %1</translation>
    </message>
    <message>
        <source>Fit another</source>
        <translation>Colocar otra</translation>
    </message>
    <message>
        <source>Fit: %1</source>
        <translation>Colocar: %1</translation>
    </message>
    <message>
        <source>Record: %1 …</source>
        <translation>Anotar: %1 …</translation>
    </message>
    <message>
        <source>The patient is disconnected for a while: pause the use</source>
        <translation>El paciente está desconectado por un tiempo: poner el uso en pausa</translation>
    </message>
    <message>
        <source>Connected again, same patient: resume the use</source>
        <translation>Conectado de nuevo, mismo paciente: reanudar el uso</translation>
    </message>
</context>
<context>
    <name>desktop::SwapUnitsSheet</name>
    <message>
        <source>Swap for another unit</source>
        <translation>Cambiar por otro ventilador</translation>
    </message>
    <message>
        <source>The use of %1 ends. The other unit takes over for the same group, at the same place.</source>
        <translation>Termina el uso de %1. El otro ventilador lo sustituye para el mismo grupo, en el mismo lugar.</translation>
    </message>
    <message>
        <source>&amp;Which unit takes over? Scan or type it</source>
        <translation>¿&amp;Cuál lo sustituye? Escanearlo o escribirlo</translation>
    </message>
    <message>
        <source>No fault</source>
        <translation>Sin avería</translation>
    </message>
    <message>
        <source>Has %1 a fault?</source>
        <translation>¿Tiene %1 una avería?</translation>
    </message>
    <message>
        <source>Wh&amp;y? It may stay empty</source>
        <translation>¿Por &amp;qué? Puede quedar vacío</translation>
    </message>
    <message>
        <source>Fault of the unit</source>
        <translation>Avería del ventilador</translation>
    </message>
    <message>
        <source>Patient&apos;s needs</source>
        <translation>Necesidades del paciente</translation>
    </message>
    <message>
        <source>%1 is off the patient, %2 took over</source>
        <translation>Desconectado %1, lo sustituye %2</translation>
    </message>
    <message>
        <source>No unit goes by %1.</source>
        <translation>No se conoce ningún ventilador con %1.</translation>
    </message>
    <message>
        <source>That is the unit that is taken off. Scan the one that takes over.</source>
        <translation>Ese es el ventilador que se desconecta. Escanear el que lo sustituye.</translation>
    </message>
    <message>
        <source>Several units go by %1. Type the serial of the one that takes over.</source>
        <translation>Varios ventiladores responden a %1. Escribir el número de serie del que toma el relevo.</translation>
    </message>
    <message>
        <source>%1 is off the patient, %2 took over although it is not ready for this group</source>
        <translation>Desconectado %1, lo sustituye %2 aunque no está listo para este grupo</translation>
    </message>
    <message>
        <source>The reason is a fault of %1. Press which fault, or another reason.</source>
        <translation>El motivo es una avería de %1. Pulsar qué avería es, u otro motivo.</translation>
    </message>
    <message>
        <source>%1 is off the patient, %2 took over, which is in use by the log</source>
        <translation>Desconectado %1, lo sustituye %2, que según el registro está en uso</translation>
    </message>
    <message>
        <source>That use is over, %1 took over</source>
        <translation>Ese uso ha terminado, lo sustituye %1</translation>
    </message>
    <message>
        <source>Back, look again</source>
        <translation>Volver, mirar otra vez</translation>
    </message>
    <message>
        <source>%1 is retired. Scan another unit that takes over.</source>
        <translation>%1 está retirado. Escanear otro ventilador que lo sustituya.</translation>
    </message>
    <message>
        <source>place unknown</source>
        <translation>lugar desconocido</translation>
    </message>
    <message>
        <source>place not said at its start, last known: %1</source>
        <translation>lugar no indicado al inicio, el último conocido: %1</translation>
    </message>
    <message>
        <source>place: %1</source>
        <translation>lugar: %1</translation>
    </message>
    <message>
        <source>By the log %1 is in use since %2, %4. Is that use over? If it is of the same patient as %3, go back, and enter only the end of use of %3.</source>
        <translation>Según el registro, %1 está en uso desde %2, %4. ¿Ha terminado ese uso? Si es del mismo paciente que %3, volver y anotar solo el fin de uso de %3.</translation>
    </message>
    <message>
        <source>The use of %1 ends. The other unit takes over for the same group. Where %1 is was not said.</source>
        <translation>Termina el uso de %1. El otro ventilador toma el relevo para el mismo grupo. No se indicó dónde está %1.</translation>
    </message>
    <message>
        <source>W&amp;here? It may stay empty</source>
        <translation>¿&amp;Dónde? Puede quedar vacío</translation>
    </message>
    <message>
        <source>%1 is not ready: %2.</source>
        <translation>%1 no está listo: %2.</translation>
    </message>
    <message>
        <source>Ready: %1.</source>
        <translation>Listo: %1.</translation>
    </message>
</context>
<context>
    <name>desktop::TimeSheet</name>
    <message>
        <source>When was it done?</source>
        <translation>¿Cuándo se hizo?</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Take this time</source>
        <translation>Usar esta hora</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Ahora</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Hora</translation>
    </message>
    <message>
        <source>That time has not come yet.</source>
        <translation>Esa hora todavía no ha llegado.</translation>
    </message>
    <message numerus="yes">
        <source>%n min ago</source>
        <translation>
            <numerusform>Hace %n min</numerusform>
            <numerusform>Hace %n min</numerusform>
        </translation>
    </message>
    <message>
        <source>Or a &amp;time by the clock on the wall, as 14:20. Of another day with the date before it, as 2026-11-26 14:20</source>
        <translation>O la &amp;hora del reloj de pared, como 14:20. De otro día, con la fecha delante, como 2026-11-26 14:20</translation>
    </message>
    <message>
        <source>Today</source>
        <translation>Hoy</translation>
    </message>
    <message>
        <source>Yesterday</source>
        <translation>Ayer</translation>
    </message>
    <message>
        <source>Two days ago</source>
        <translation>Hace dos días</translation>
    </message>
    <message>
        <source>That is no time. Type hours and minutes, as 14:20, or the date before them, as 2026-11-26 14:20.</source>
        <translation>Eso no es una hora. Escribir horas y minutos, como 14:20, o la fecha delante, como 2026-11-26 14:20.</translation>
    </message>
    <message>
        <source>The clock showed that time twice. Which one was it?</source>
        <translation>El reloj marcó esa hora dos veces. ¿Cuál fue?</translation>
    </message>
    <message>
        <source>What the time is read as</source>
        <translation>Cómo se lee la hora</translation>
    </message>
    <message>
        <source>The clock showed that time twice: which one it was is asked next.</source>
        <translation>El reloj marcó esa hora dos veces: ahora se pregunta cuál fue.</translation>
    </message>
    <message>
        <source>%1 %2, %3 ago</source>
        <translation>%1 %2, hace %3</translation>
    </message>
    <message>
        <source>There is no such time: the hours go to 23, the minutes to 59.</source>
        <translation>Esa hora no existe: las horas llegan a 23 y los minutos a 59.</translation>
    </message>
    <message>
        <source>That is no day. The date goes before the time, as 2026-11-26 14:20.</source>
        <translation>Eso no es un día. La fecha va antes de la hora, como 2026-11-26 14:20.</translation>
    </message>
</context>
<context>
    <name>desktop::ToldText</name>
    <message>
        <source>What was told last</source>
        <translation>Último aviso del programa</translation>
    </message>
</context>
<context>
    <name>desktop::TroubleForms</name>
    <message>
        <source>Alarm</source>
        <translation>Alarma</translation>
    </message>
    <message>
        <source>An alarm of the unit that bears on whether it is ready.</source>
        <translation>Una alarma del ventilador que influye en si está listo.</translation>
    </message>
    <message>
        <source>Which alarm?</source>
        <translation>¿Qué alarma?</translation>
    </message>
    <message>
        <source>The unit raised this alarm: %1</source>
        <translation>El ventilador dio esta alarma: %1</translation>
    </message>
    <message>
        <source>does not stand against ready</source>
        <translation>no impide que esté listo</translation>
    </message>
    <message>
        <source>Another fault</source>
        <translation>Otra avería</translation>
    </message>
    <message>
        <source>Fault</source>
        <translation>Avería</translation>
    </message>
    <message>
        <source>Which fault?</source>
        <translation>¿Qué avería?</translation>
    </message>
    <message>
        <source>&amp;What was seen? It may stay empty</source>
        <translation>¿&amp;Qué se vio? Puede quedar vacío</translation>
    </message>
    <message>
        <source>The unit has this fault: %1</source>
        <translation>El ventilador tiene esta avería: %1</translation>
    </message>
    <message>
        <source>since %1</source>
        <translation>desde las %1</translation>
    </message>
    <message>
        <source>Fault put right</source>
        <translation>Avería resuelta</translation>
    </message>
    <message>
        <source>Put right: %1</source>
        <translation>Resuelta: %1</translation>
    </message>
    <message>
        <source>Anyone may lift it</source>
        <translation>Puede levantarlo cualquiera</translation>
    </message>
    <message>
        <source>Lifted by %1</source>
        <translation>Puede levantarlo: %1</translation>
    </message>
    <message>
        <source>Out of service</source>
        <translation>Fuera de servicio</translation>
    </message>
    <message>
        <source>Why?</source>
        <translation>¿Por qué?</translation>
    </message>
    <message>
        <source>&amp;What happened? It may stay empty</source>
        <translation>¿&amp;Qué ha pasado? Puede quedar vacío</translation>
    </message>
    <message>
        <source>Take it out of service: %1</source>
        <translation>Dejar fuera de servicio: %1</translation>
    </message>
    <message>
        <source>Back in service</source>
        <translation>Devolver al servicio</translation>
    </message>
    <message>
        <source>Which reason is gone?</source>
        <translation>¿Qué motivo ha desaparecido?</translation>
    </message>
    <message>
        <source>This reason is gone: %1</source>
        <translation>Ha desaparecido este motivo: %1</translation>
    </message>
</context>
<context>
    <name>desktop::UnitBar</name>
    <message>
        <source>Serial</source>
        <translation>Número de serie</translation>
    </message>
    <message>
        <source>Asset number and model</source>
        <translation>Número de inventario y modelo</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Lugar</translation>
    </message>
    <message>
        <source>Patient group</source>
        <translation>Grupo de pacientes</translation>
    </message>
    <message>
        <source>Until when</source>
        <translation>Hasta cuándo</translation>
    </message>
    <message>
        <source>Last four characters</source>
        <translation>Últimos cuatro caracteres</translation>
    </message>
    <message>
        <source>How old this is</source>
        <translation>Antigüedad de lo mostrado</translation>
    </message>
    <message>
        <source>not known now</source>
        <translation>no se sabe ahora</translation>
    </message>
    <message>
        <source>Typed: does its plate end in %1?</source>
        <translation>Escrito: ¿la placa acaba en %1?</translation>
    </message>
    <message>
        <source>one moment</source>
        <translation>un momento</translation>
    </message>
</context>
<context>
    <name>desktop::UnitChoiceSheet</name>
    <message>
        <source>Which unit?</source>
        <translation>¿Qué ventilador?</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
</context>
<context>
    <name>desktop::UnitFacts</name>
    <message>
        <source>May be entered by: %1.</source>
        <translation>Puede anotarlo: %1.</translation>
    </message>
</context>
<context>
    <name>desktop::UnitForms</name>
    <message>
        <source>Patient group</source>
        <translation>Grupo de pacientes</translation>
    </message>
    <message>
        <source>Selected now: %1. With another group its checks fall due again.</source>
        <translation>Seleccionado ahora: %1. Con otro grupo, sus comprobaciones vuelven a quedar pendientes.</translation>
    </message>
    <message>
        <source>No group is selected by the log.</source>
        <translation>Según el registro, no hay ningún grupo seleccionado.</translation>
    </message>
    <message>
        <source>Which group was selected on the unit?</source>
        <translation>¿Qué grupo se seleccionó en el ventilador?</translation>
    </message>
    <message>
        <source>Selected on the unit: %1</source>
        <translation>Seleccionado en el ventilador: %1</translation>
    </message>
    <message>
        <source>Switched on</source>
        <translation>Encendido</translation>
    </message>
    <message>
        <source>What has to warm up is waited for from then on.</source>
        <translation>Desde entonces cuenta la espera de lo que tiene que calentarse.</translation>
    </message>
    <message>
        <source>The unit was switched on</source>
        <translation>Se encendió el ventilador</translation>
    </message>
    <message>
        <source>Switched off</source>
        <translation>Apagado</translation>
    </message>
    <message>
        <source>The unit was switched off</source>
        <translation>Se apagó el ventilador</translation>
    </message>
    <message>
        <source>Soiled</source>
        <translation>Ensuciado</translation>
    </message>
    <message>
        <source>Soiled without a use. The parts that are fitted count as used.</source>
        <translation>Se ensució sin que hubiera un uso. Las piezas colocadas cuentan como usadas.</translation>
    </message>
    <message>
        <source>By &amp;what? It may stay empty</source>
        <translation>¿Con &amp;qué? Puede quedar vacío</translation>
    </message>
    <message>
        <source>Stood in an isolation room</source>
        <translation>Estuvo en una habitación de aislamiento</translation>
    </message>
    <message>
        <source>Splash</source>
        <translation>Salpicadura</translation>
    </message>
    <message>
        <source>The unit was soiled</source>
        <translation>El ventilador se ensució</translation>
    </message>
    <message>
        <source>Seen here</source>
        <translation>Visto aquí</translation>
    </message>
    <message>
        <source>By the log: %1.</source>
        <translation>Según el registro: %1.</translation>
    </message>
    <message>
        <source>Found there, or taken there?</source>
        <translation>¿Se encontró allí o se llevó allí?</translation>
    </message>
    <message>
        <source>Seen there</source>
        <translation>Visto allí</translation>
    </message>
    <message>
        <source>Moved there</source>
        <translation>Trasladado allí</translation>
    </message>
    <message>
        <source>W&amp;here? Scan or type the place</source>
        <translation>¿&amp;Dónde? Escanear o escribir el lugar</translation>
    </message>
    <message>
        <source>The unit was moved to %1</source>
        <translation>El ventilador se trasladó a: %1</translation>
    </message>
    <message>
        <source>The unit was seen at %1</source>
        <translation>El ventilador se vio en: %1</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Nota</translation>
    </message>
    <message>
        <source>For people only: it changes nothing about ready. Never name a patient.</source>
        <translation>Solo para las personas: no cambia si está listo o no. Nunca nombrar a un paciente.</translation>
    </message>
    <message>
        <source>What is to be &amp;noted?</source>
        <translation>¿Qué hay que a&amp;notar?</translation>
    </message>
    <message>
        <source>Keep this note</source>
        <translation>Guardar esta nota</translation>
    </message>
</context>
<context>
    <name>desktop::UnitTable</name>
    <message>
        <source>All units</source>
        <translation>Todos los ventiladores</translation>
    </message>
</context>
<context>
    <name>desktop::UnitsPage</name>
    <message>
        <source>The units</source>
        <translation>Los ventiladores</translation>
    </message>
    <message>
        <source>Go on to the first check</source>
        <translation>Seguir con la primera comprobación</translation>
    </message>
    <message>
        <source>Scan a unit, or type what stands on its plate.</source>
        <translation>Escanear un ventilador o escribir lo que pone en su placa.</translation>
    </message>
    <message>
        <source>Serial number</source>
        <translation>Número de serie</translation>
    </message>
    <message>
        <source>scan or type</source>
        <translation>escanear o escribir</translation>
    </message>
    <message>
        <source>Model</source>
        <translation>Modelo</translation>
    </message>
    <message>
        <source>For whom it may be used</source>
        <translation>Para quién se puede usar</translation>
    </message>
    <message>
        <source>Asset number, if it has one</source>
        <translation>Número de inventario, si tiene</translation>
    </message>
    <message>
        <source>Place where it stands</source>
        <translation>Lugar donde está</translation>
    </message>
    <message>
        <source>Enrol this unit</source>
        <translation>Dar de alta este ventilador</translation>
    </message>
    <message>
        <source>Enrol a fleet list …</source>
        <translation>Dar de alta una lista de equipos …</translation>
    </message>
    <message>
        <source>The unit has no serial number yet. Scan it, or type what stands on its plate.</source>
        <translation>Todavía falta el número de serie del ventilador. Escanearlo o escribir lo que pone en su placa.</translation>
    </message>
    <message>
        <source>The unit&apos;s model is not told yet. Type it.</source>
        <translation>Todavía falta el modelo del ventilador. Escribirlo.</translation>
    </message>
    <message>
        <source>No group is chosen yet. Press each one for which the unit may be used.</source>
        <translation>Todavía no se ha elegido ningún grupo. Pulsar todos aquellos para los que se puede usar el ventilador.</translation>
    </message>
    <message>
        <source>Which fleet list?</source>
        <translation>¿Qué lista de equipos?</translation>
    </message>
    <message>
        <source>No unit is enrolled yet. Enrol one, or finish without.</source>
        <translation>Todavía no hay ningún ventilador dado de alta. Dar de alta uno o terminar sin ninguno.</translation>
    </message>
    <message>
        <source>Read %1, but %2 is not enrolled yet. Enrol it first, or empty the field and scan again.</source>
        <translation>Leído: %1, pero %2 aún no está dado de alta. Darlo de alta primero, o vaciar el campo y escanear otra vez.</translation>
    </message>
    <message>
        <source>%1 is enrolled. Units so far: %2. Scan the next one, or go on.</source>
        <translation>%1: dado de alta. Ventiladores hasta ahora: %2. Escanear el siguiente o seguir.</translation>
    </message>
    <message>
        <source>Enrolled from the list: %1. Units so far: %2.</source>
        <translation>Dados de alta de la lista: %1. Ventiladores hasta ahora: %2.</translation>
    </message>
    <message>
        <source>%1 is typed and not enrolled yet. Enrol it, or empty the field.</source>
        <translation>%1 está escrito y todavía no dado de alta. Darlo de alta o vaciar el campo.</translation>
    </message>
    <message>
        <source>What it has</source>
        <translation>Lo que tiene:</translation>
    </message>
    <message>
        <source>It names no patient: enrol it</source>
        <translation>No nombra a ningún paciente: dar de alta</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>%1 was not enrolled: whoever pressed it is not signed in any more.</source>
        <translation>%1 no se ha dado de alta: quien lo pulsó ya no tiene la sesión abierta.</translation>
    </message>
    <message>
        <source>In service since</source>
        <translation>En servicio desde</translation>
    </message>
    <message>
        <source>as 2026-11-28 or 261128</source>
        <translation>como 2026-11-28 o 261128</translation>
    </message>
    <message>
        <source>Since when the unit is in service is no day, or one to come. Type it as 2026-11-28.</source>
        <translation>«En servicio desde» no es una fecha, o es una futura. Escribirla como 2026-11-28.</translation>
    </message>
</context>
<context>
    <name>desktop::UnkeptRow</name>
    <message>
        <source>It is not to be recorded</source>
        <translation>No hay que anotarlo</translation>
    </message>
    <message>
        <source>Not recorded yet: emergency start of %1, %2. It is being written.</source>
        <translation>Aún sin anotar: inicio de emergencia de %1, %2. Se está escribiendo.</translation>
    </message>
    <message>
        <source>Pressed by %1.</source>
        <translation>Pulsado por: %1.</translation>
    </message>
    <message>
        <source>It was pressed for the logbook %1.</source>
        <translation>Se pulsó para el libro de registro %1.</translation>
    </message>
    <message>
        <source>It is tried again every few seconds, until it is recorded.</source>
        <translation>Se vuelve a intentar cada pocos segundos, hasta que quede anotado.</translation>
    </message>
    <message>
        <source>It is held in this window alone: leave it open.</source>
        <translation>Solo lo guarda esta ventana: dejarla abierta.</translation>
    </message>
    <message>
        <source>Record the start of %1 now</source>
        <translation>Anotar ahora el inicio de %1</translation>
    </message>
    <message>
        <source>Record the start of %1 in this logbook</source>
        <translation>Anotar el inicio de %1 en este libro de registro</translation>
    </message>
    <message>
        <source>Is the emergency start of unit %1, %2, not to be recorded? The unit is shown again as it was before.</source>
        <translation>¿No hay que anotar el inicio de emergencia del ventilador %1, %2? El ventilador vuelve a mostrarse como antes.</translation>
    </message>
    <message>
        <source>It was not started: record nothing</source>
        <translation>No se inició: no anotar nada</translation>
    </message>
    <message>
        <source>Back, it is still to be recorded</source>
        <translation>Atrás, aún hay que anotarlo</translation>
    </message>
</context>
<context>
    <name>desktop::UnkeptRows</name>
    <message>
        <source>I have read that</source>
        <translation>Leído</translation>
    </message>
</context>
<context>
    <name>desktop::UnkeptStarts</name>
    <message>
        <source>Emergency starts that are not recorded</source>
        <translation>Inicios de emergencia sin anotar</translation>
    </message>
    <message>
        <source>NOT recorded: emergency start of %1, %2.</source>
        <translation>SIN ANOTAR: inicio de emergencia de %1, %2.</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>A note of an emergency start cannot be read.</source>
        <translation>No se puede leer una nota de un inicio de emergencia.</translation>
    </message>
    <message>
        <source>NOT recorded: emergency starts of %1 …</source>
        <translation>SIN ANOTAR: inicios de emergencia de %1 …</translation>
    </message>
</context>
<context>
    <name>desktop::UnknownCodeSheet</name>
    <message>
        <source>No such unit in this logbook</source>
        <translation>No hay tal ventilador en este registro</translation>
    </message>
    <message>
        <source>Scan again if it was read wrongly. If it is the serial of a new unit, enrol it.</source>
        <translation>Escanear de nuevo si se leyó mal. Si es el número de serie de un ventilador nuevo, darlo de alta.</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Enrol %1 …</source>
        <translation>Dar de alta %1 …</translation>
    </message>
    <message>
        <source>If it is on a part that is to be fitted, go back, press Fit or Swap at its position in Set-up, and scan it there.</source>
        <translation>Si está en una pieza que se va a colocar, volver, pulsar «Colocar» o «Cambiar» en su posición, en Montaje, y escanearlo allí.</translation>
    </message>
</context>
<context>
    <name>desktop::Unrecorded</name>
    <message>
        <source>not recorded: emergency start %1</source>
        <translation>sin anotar: inicio de emergencia, %1</translation>
    </message>
    <message>
        <source>Not recorded: emergency start %1. By the log the unit may look as if nobody used it: whether it is ready is not known. Look at the unit.</source>
        <translation>Sin anotar: inicio de emergencia, %1. Según el registro puede parecer que nadie lo usa: no se sabe si está listo. Comprobar el ventilador.</translation>
    </message>
    <message>
        <source>Left out, since an emergency start of them is not recorded: %1.</source>
        <translation>Sin contar, porque su inicio de emergencia está sin anotar: %1.</translation>
    </message>
</context>
<context>
    <name>desktop::UseForms</name>
    <message>
        <source>A start of this unit is not recorded yet and is tried again by itself. Enter only what is another start: each is kept.</source>
        <translation>Un inicio de esta unidad aún no está anotado y se vuelve a intentar solo. Anotar solo lo que sea otro inicio: cada uno se guarda.</translation>
    </message>
    <message>
        <source>Start of use</source>
        <translation>Inicio de uso</translation>
    </message>
    <message>
        <source>Still to be made sure of at the bedside:</source>
        <translation>Por hacer a pie de cama:</translation>
    </message>
    <message>
        <source>Not ready by the log. The start is kept all the same.</source>
        <translation>No listo según el registro. El inicio se guarda de todos modos.</translation>
    </message>
    <message>
        <source>For which patient group?</source>
        <translation>¿Para qué grupo de pacientes?</translation>
    </message>
    <message>
        <source>By the log this unit is in use.</source>
        <translation>Según el registro, este ventilador está en uso.</translation>
    </message>
    <message>
        <source>Is it the same patient?</source>
        <translation>¿Es el mismo paciente?</translation>
    </message>
    <message>
        <source>That use is over, another patient</source>
        <translation>Aquel uso terminó, otro paciente</translation>
    </message>
    <message>
        <source>The same patient</source>
        <translation>El mismo paciente</translation>
    </message>
    <message>
        <source>Isolation precautions?</source>
        <translation>¿Precauciones de aislamiento?</translation>
    </message>
    <message>
        <source>No precautions</source>
        <translation>Sin precauciones</translation>
    </message>
    <message>
        <source>Precautions</source>
        <translation>Con precauciones</translation>
    </message>
    <message>
        <source>Wh&amp;y before it was ready? It may stay empty</source>
        <translation>¿Por &amp;qué antes de estar listo? Puede quedar vacío</translation>
    </message>
    <message>
        <source>No other unit at hand</source>
        <translation>No había otro ventilador a mano</translation>
    </message>
    <message>
        <source>Patient unstable</source>
        <translation>Paciente inestable</translation>
    </message>
    <message>
        <source>The use goes on, same patient</source>
        <translation>El uso continúa, mismo paciente</translation>
    </message>
    <message>
        <source>The use began</source>
        <translation>El uso ha empezado</translation>
    </message>
    <message>
        <source>The use began, for %1</source>
        <translation>El uso ha empezado, para %1</translation>
    </message>
    <message>
        <source>Emergency start</source>
        <translation>Inicio de emergencia</translation>
    </message>
    <message>
        <source>Ventilate first. This can be entered afterwards, too.</source>
        <translation>Primero ventilar. Esto también se puede anotar después.</translation>
    </message>
    <message>
        <source>Patient group</source>
        <translation>Grupo de pacientes</translation>
    </message>
    <message>
        <source>Started in an emergency</source>
        <translation>Iniciado en una emergencia</translation>
    </message>
    <message>
        <source>Started in an emergency, for %1</source>
        <translation>Iniciado en una emergencia, para %1</translation>
    </message>
    <message>
        <source>Pause</source>
        <translation>Pausar</translation>
    </message>
    <message>
        <source>The patient is disconnected for a while and stays with this unit.</source>
        <translation>Se desconecta al paciente por un tiempo, y sigue con este ventilador.</translation>
    </message>
    <message>
        <source>Wh&amp;y? It may stay empty</source>
        <translation>¿Por &amp;qué? Puede quedar vacío</translation>
    </message>
    <message>
        <source>Circuit change</source>
        <translation>Cambio de circuito</translation>
    </message>
    <message>
        <source>Break from the mask</source>
        <translation>Descanso de la mascarilla</translation>
    </message>
    <message>
        <source>Transport</source>
        <translation>Traslado</translation>
    </message>
    <message>
        <source>Disconnected for a while</source>
        <translation>Desconectado por un tiempo</translation>
    </message>
    <message>
        <source>Resume</source>
        <translation>Reanudar</translation>
    </message>
    <message>
        <source>This stands meanwhile. The resumption is kept all the same.</source>
        <translation>Mientras tanto consta lo siguiente. La reanudación se guarda de todos modos.</translation>
    </message>
    <message>
        <source>Connected again, same patient</source>
        <translation>Conectado de nuevo, mismo paciente</translation>
    </message>
    <message>
        <source>End of use</source>
        <translation>Final de uso</translation>
    </message>
    <message>
        <source>What was on the patient counts as used from then on.</source>
        <translation>Desde entonces, lo que estuvo con el paciente cuenta como usado.</translation>
    </message>
    <message>
        <source>This use is over</source>
        <translation>Este uso ha terminado</translation>
    </message>
    <message>
        <source>By the log this unit is in use: look at its serial again. The start is kept all the same, and ends that use.</source>
        <translation>Según el registro, este ventilador está en uso: mirar otra vez su número de serie. El inicio se anota de todos modos y pone fin a ese uso.</translation>
    </message>
    <message>
        <source>%1, place not said</source>
        <translation>%1, sin indicar el lugar</translation>
    </message>
    <message>
        <source>W&amp;here? It may stay empty</source>
        <translation>¿&amp;Dónde? Puede quedar vacío</translation>
    </message>
    <message>
        <source>%1. Look whether another unit is at hand.</source>
        <translation>%1. Mirar si hay otro ventilador a mano.</translation>
    </message>
    <message>
        <source>%1: take %2 if you can.</source>
        <translation>%1: tomar %2 si es posible.</translation>
    </message>
</context>
<context>
    <name>desktop::WaitingHint</name>
    <message>
        <source>Later</source>
        <translation>Más tarde</translation>
    </message>
    <message>
        <source>Put off what waits for your name</source>
        <translation>Dejar para más tarde lo que espera la confirmación propia</translation>
    </message>
    <message>
        <source>Entries that wait for your name: %1 …</source>
        <translation>Anotaciones que esperan la confirmación propia: %1 …</translation>
    </message>
    <message>
        <source>No entry waits for your name.</source>
        <translation>No hay anotaciones que esperen la confirmación propia.</translation>
    </message>
    <message>
        <source>No entry that can be read waits for your name. There may be others among what cannot be read.</source>
        <translation>Ninguna anotación que se pueda leer espera la confirmación propia. Puede haber otras entre lo que no se puede leer.</translation>
    </message>
</context>
<context>
    <name>desktop::WayPanel</name>
    <message>
        <source>What stands in the way</source>
        <translation>Qué lo impide</translation>
    </message>
    <message>
        <source>Then</source>
        <translation>Después</translation>
    </message>
    <message>
        <source>What stands</source>
        <translation>Qué consta</translation>
    </message>
    <message>
        <source>Before a patient is connected</source>
        <translation>Antes de conectar a un paciente</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Hecho</translation>
    </message>
    <message>
        <source>%1, %2, by %3</source>
        <translation>%1, desde las %2, por %3</translation>
    </message>
    <message>
        <source>Entry %1</source>
        <translation>Anotación %1</translation>
    </message>
    <message>
        <source>One moment: it is being worked out anew.</source>
        <translation>Un momento: se está calculando de nuevo.</translation>
    </message>
    <message>
        <source>Strike through what was entered last</source>
        <translation>Tachar lo último anotado</translation>
    </message>
    <message>
        <source>Strike through: %1</source>
        <translation>Tachar: %1</translation>
    </message>
</context>
<context>
    <name>desktop::WayRow</name>
    <message>
        <source>Do this first</source>
        <translation>Hacer esto primero</translation>
    </message>
    <message>
        <source>%1 · %2 · %3, %4</source>
        <translation>%1 · %2 · %3, a las %4</translation>
    </message>
</context>
<context>
    <name>desktop::WhenDoneSheet</name>
    <message>
        <source>Begun at %1. Done at %2.</source>
        <translation>Empezado a las %1. Hecho a las %2.</translation>
    </message>
    <message>
        <source>Begun at %1. Done now, when it is kept.</source>
        <translation>Empezado a las %1. Hecho ahora, al guardarlo.</translation>
    </message>
    <message>
        <source>Begun at %1, %2 ago, and not kept yet. When was this done?</source>
        <translation>Empezado a las %1, hace %2, y sin guardar todavía. ¿Cuándo se hizo?</translation>
    </message>
    <message>
        <source>At %1, when it was begun</source>
        <translation>A las %1, cuando se empezó</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Ahora</translation>
    </message>
    <message>
        <source>Another time</source>
        <translation>A otra hora</translation>
    </message>
    <message>
        <source>First say when it was done. What was left can be called off after that.</source>
        <translation>Primero hay que decir cuándo se hizo. Lo que quedó a medias se puede cancelar después.</translation>
    </message>
</context>
<context>
    <name>desktop::Window</name>
    <message>
        <source>Airmuster</source>
        <translation>Airmuster</translation>
    </message>
    <message>
        <source>Bedside</source>
        <translation>Cabecera</translation>
    </message>
    <message>
        <source>Fleet</source>
        <translation>Equipos</translation>
    </message>
    <message>
        <source>Read %1. Nothing was done with it.</source>
        <translation>Leído: %1. No se ha hecho nada con ello.</translation>
    </message>
    <message>
        <source>%1 in %2 - Airmuster</source>
        <translation>%1 en %2 - Airmuster</translation>
    </message>
    <message>
        <source>What was read was not used, and is not shown: it may be a PIN. Type it once more, more slowly.</source>
        <translation>Lo leído no se ha usado y no se muestra: puede ser un PIN. Escribirlo otra vez, más despacio.</translation>
    </message>
    <message>
        <source>This text ends in %1, a code of this logbook, and then in Enter: %2
Was %1 scanned?</source>
        <translation>Este texto acaba en %1, un código de este libro de registro, y luego en Intro: %2
¿Se ha escaneado %1?</translation>
    </message>
    <message>
        <source>It was scanned: take it out of the text</source>
        <translation>Se ha escaneado: quitarlo del texto</translation>
    </message>
    <message>
        <source>It was typed: it stays in the text</source>
        <translation>Se ha escrito: se queda en el texto</translation>
    </message>
    <message>
        <source>What you typed here is not kept. Leave it?</source>
        <translation>Lo escrito aquí no está guardado. ¿Dejarlo?</translation>
    </message>
    <message>
        <source>Leave it, lose what I typed</source>
        <translation>Dejarlo y perder lo escrito</translation>
    </message>
    <message>
        <source>Go on writing</source>
        <translation>Seguir escribiendo</translation>
    </message>
</context>
<context>
    <name>desktop::Workplace</name>
    <message>
        <source>Yes, keep it</source>
        <translation>Sí, guardar</translation>
    </message>
    <message>
        <source>No, look again</source>
        <translation>No, mirar otra vez</translation>
    </message>
    <message>
        <source>Kept by %1 as %2.</source>
        <translation>Anotado por %1 como %2.</translation>
    </message>
    <message>
        <source>For unit %1</source>
        <translation>Para el ventilador %1</translation>
    </message>
    <message>
        <source>For unit %1: %2</source>
        <translation>Para el ventilador %1: %2</translation>
    </message>
    <message>
        <source>This logbook is read-only here: it can be looked at, and nothing can be entered. Write down on paper what is done, or open it where it can be written.</source>
        <translation>Aquí este libro de registro es de solo lectura: se puede mirar, pero no se puede anotar nada. Apuntar en papel lo que se hace, o abrirlo donde se pueda escribir.</translation>
    </message>
</context>
<context>
    <name>main</name>
    <message>
        <source>Ventilator readiness logbook</source>
        <translation>Libro de registro de disponibilidad de ventiladores</translation>
    </message>
    <message>
        <source>The logbook file to open.</source>
        <translation>El archivo del libro de registro que se abre.</translation>
    </message>
    <message>
        <source>light or dark</source>
        <translation>light (claro) o dark (oscuro)</translation>
    </message>
    <message>
        <source>100 to 200 percent</source>
        <translation>de 100 a 200 por ciento</translation>
    </message>
    <message>
        <source>en or es</source>
        <translation>en o es</translation>
    </message>
</context>
</TS>
